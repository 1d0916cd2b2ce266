"""Holds a certificate draft to the outline of DCC 3.3.0 and D-SI, written down here from the published structure: which elements, in which
order, how often, and what stands in them. It is no copy of the schema and no replacement for a validator that has it.
Usage: outline.py FILE; prints each fault, and ends with 1 if there is one. Where a comment says "Missing: ...", a mandatory element may be absent."""
import re
import sys
import xml.etree.ElementTree as ET

PREFIX = {"https://ptb.de/dcc": "dcc:", "https://ptb.de/si": "si:"}

# a: once; a?: at most once; a*, a+: any number, at least once; a|b: one of them.
TEXT, RICH = "content+", "name? content|file|formula+"
PARTS = "usedMethods? usedSoftware? measuringEquipments? influenceConditions? measurementMetaData?"
SI = "noQuantity|charsXMLList|si:real|si:list|si:hybrid|si:complex|si:constant|si:realListXMLList"
PRIMITIVE = f"name? description? {SI}"
STATEMENT = ("name? description? countryCodeISO3166_1* convention? traceable? norm* reference* declaration? valid|validXMLList? date? period? "
             "respAuthority? conformity|conformityXMLList? data? nonSIDefinition? nonSIUnit? location?")
CHILDREN = {
    "digitalCalibrationCertificate": "administrativeData measurementResults comment? document? Signature*",
    "administrativeData": "dccSoftware refTypeDefinitions? coreData items calibrationLaboratory respPersons customer statements?",
    "dccSoftware": "software+", "software": "name release type? description?",
    "coreData": "countryCodeISO3166_1 usedLangCodeISO639_1+ mandatoryLangCodeISO639_1+ uniqueIdentifier identifications? receiptDate? "
                "beginPerformanceDate endPerformanceDate performanceLocation issueDate? reportAmendedSubstituted? previousReport?",
    "reportAmendedSubstituted": "typeOfChange replacedUniqueIdentifier",
    "items": "name? equipmentClass* description? owner? manufacturer? identifications? item+",
    "item": "name equipmentClass* description? installedSoftwares? manufacturer? model? identifications itemQuantities?",
    "itemQuantities": "itemQuantity+", "itemQuantity": PRIMITIVE,
    "identifications": "identification+", "identification": "issuer value name?",
    "calibrationLaboratory": "calibrationLaboratoryCode? contact",
    "contact": "name eMail? phone? fax? location descriptionData?", "customer": "name eMail? phone? fax? location descriptionData?",
    "manufacturer": "name eMail? phone? fax? location? descriptionData?", "person": "name eMail? phone? fax? location? descriptionData?",
    "location": "city|countryCode|postCode|postOfficeBox|state|street|streetNo|further|positionCoordinates+",
    "respPersons": "respPerson+", "respPerson": "person description? role? mainSigner?",
    "statements": "statement+", "statement": STATEMENT, "metaData": STATEMENT, "measurementMetaData": "metaData+",
    "measurementResults": "measurementResult+",
    "measurementResult": "name description? usedMethods? usedSoftware? measuringEquipments? influenceConditions? results measurementMetaData?",
    "usedMethods": "usedMethod+", "usedMethod": "name description? norm* reference*",
    "measuringEquipments": "name? equipmentClass* description? owner? identifications? measuringEquipment+",
    "measuringEquipment": "name equipmentClass* description? certificate? manufacturer? model? identifications? measuringEquipmentQuantities?",
    "measuringEquipmentQuantities": "measuringEquipmentQuantity+", "measuringEquipmentQuantity": PRIMITIVE,
    "influenceConditions": "influenceCondition+", "influenceCondition": "name description? status? certificate? data",
    "results": "result+", "result": "name description? data",
    "data": "text|formula|byteData|xml|quantity|list+",
    "quantity": f"{PRIMITIVE} relativeUncertainty? {PARTS}",
    "list": f"name? description? dateTime|dateTimeXMLList? list|quantity+ {PARTS}",
    "name": TEXT, "description": RICH, "declaration": RICH, "further": RICH, "text": RICH, "noQuantity": RICH,
    "si:real": "label? quantityTypeQUDT? value unit significantDigit? dateTime? measurementUncertaintyUnivariate?",
    "si:measurementUncertaintyUnivariate": "expandedMU|standardMU|coverageIntervalMU",
    "si:expandedMU": "valueExpandedMU coverageFactor coverageProbability distribution?",
    "si:realListXMLList": "labelXMLList? quantityTypeQUDTXMLList? valueXMLList unitXMLList significantDigitXMLList? dateTimeXMLList? measurementUncertaintyUnivariateXMLList?",
}
NUMBER, UNIT, WORDS, LANGUAGE, DATE = r"-?\d+(\.\d+)?(e[+-]?\d+)?", r"(\\[a-z]+(\{-?\d+\})?)+", r"\S+(\s+\S+)*", "[a-z]{2}", r"\d{4}-\d\d-\d\d"
LEAVES = {
    "countryCodeISO3166_1": "[A-Z]{2}", "countryCode": "[A-Z]{2}", "usedLangCodeISO639_1": LANGUAGE, "mandatoryLangCodeISO639_1": LANGUAGE,
    "beginPerformanceDate": DATE, "endPerformanceDate": DATE, "issueDate": DATE, "uniqueIdentifier": WORDS, "replacedUniqueIdentifier": WORDS,
    "performanceLocation": "laboratory|customer|laboratoryBranch|customerBranch|other", "typeOfChange": "amended|substituted",
    "issuer": "manufacturer|calibrationLaboratory|customer|owner|other", "value": WORDS, "release": WORDS, "model": WORDS, "role": WORDS, "eMail": WORDS,
    "type": "application|bios|driver|editor|firmware|library|os|other", "norm": WORDS, "reference": WORDS, "content": WORDS,
    "status": "beforeAdjustment|afterAdjustment|beforeRepair|afterRepair", "conformity": "pass|fail|conditionalPass|conditionalFail|noPass|noFail",
    "si:label": WORDS, "si:value": NUMBER, "si:unit": UNIT, "si:valueExpandedMU": NUMBER, "si:coverageFactor": NUMBER, "si:coverageProbability": NUMBER,
    "si:labelXMLList": WORDS, "si:valueXMLList": f"{NUMBER}( {NUMBER})*", "si:unitXMLList": UNIT,
}
faults = []


def name_of(element):
    space, _, local = element.tag[1:].partition("}")
    return PREFIX.get(space, "unknown:") + local


def pattern_of(outline, prefix, relaxed):
    pattern = ""
    for token in outline.split():
        often = token[-1] if token[-1] in "?*+" else ""
        names = "|".join(re.escape(n if ":" in n else prefix + n) for n in token.rstrip("?*+").split("|"))
        pattern += f"(?:(?:{names}) ){ {'': '?', '+': '*'}.get(often, often) if relaxed else often}"
    return pattern


def check_children(element, name, key):
    children = [child for child in element if child.tag is not ET.Comment]
    relaxed = any(child.tag is ET.Comment and child.text.strip().startswith("Missing: ") for child in element)
    found = "".join(name_of(child) + " " for child in children)
    if not re.fullmatch(pattern_of(CHILDREN[key], name.partition(":")[0] + ":", relaxed), found):
        faults.append(f"{name}: found {found}; expected {CHILDREN[key]}")
    if (element.text or "").strip() or any((child.tail or "").strip() for child in element):
        faults.append(f"{name}: words between elements")
    for child in children:
        check(child)


def check(element):
    name = name_of(element)
    key = name[4:] if name.startswith("dcc:") else name
    if key in CHILDREN:
        check_children(element, name, key)
    elif key not in LEAVES:
        faults.append(f"{name}: not in the outline")
    elif len(element) or not re.fullmatch(LEAVES[key], element.text or ""):
        faults.append(f"{name}: {element.text!r} is not {LEAVES[key]}")
    for attribute in element.attrib:
        if attribute not in {"id", "refId"} | ({"lang"} if key == "content" else set()) | ({"schemaVersion"} if key.startswith("digital") else set()):
            faults.append(f"{name}: attribute {attribute}")


def check_references(root):
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    faults.extend(f"id {one} twice" for one in set(ids) if ids.count(one) > 1)
    faults.extend(f"id {one} is no name" for one in ids if not re.fullmatch(r"[A-Za-z_][\w.-]*", one))
    for element in root.iter():
        faults.extend(f"no element has the id {one}" for one in (element.get("refId") or "").split() if one not in ids)


def check_lists(root):
    for one in root.iter("{https://ptb.de/dcc}list"):
        lengths = {len(values.text.split()) for values in one.iter("{https://ptb.de/si}valueXMLList")}
        if len(lengths) > 1:
            faults.append(f"a list with columns of lengths {sorted(lengths)}")


root = ET.parse(sys.argv[1], ET.XMLParser(target=ET.TreeBuilder(insert_comments=True))).getroot()
if name_of(root) != "dcc:digitalCalibrationCertificate" or root.get("schemaVersion") != "3.3.0":
    faults.append("another root")
check(root)
check_references(root)
check_lists(root)
print("".join(fault + "\n" for fault in faults), end="")
sys.exit(1 if faults else 0)
