"""Holds the numbers of a certificate draft to those of the evaluation: values, U, k, probabilities, lists, verdicts.
Usage: numbers.py EVALUATION.json CERTIFICATE.xml; prints how many numbers agree, or each that does not and ends with 1."""
import json
import sys
import xml.etree.ElementTree as ET

DCC, SI = "{https://ptb.de/dcc}", "{https://ptb.de/si}"
UNITS = {"um": "\\micro\\metre", "mm": "\\milli\\metre", "urad": "\\micro\\radian", "arcsec": "\\arcsecond", "deg": "\\degree", "um/m": "\\micro\\metre\\metre\\tothe{-1}"}
INCHES = {"in": ("\\micro\\metre", 25400), "uin": ("\\micro\\metre", 0.0254)}  # D-SI has no inches
WORDS = {"pass": "pass", "fail": "fail", "conditional_pass": "conditionalPass", "conditional_fail": "conditionalFail", "undecided": None, "not_decided": None}
evaluation, root = json.load(open(sys.argv[1])), ET.parse(sys.argv[2]).getroot()
agreed, faults = 0, []


def same(what, found, expected, factor=None):
    global agreed
    good = found is None if expected is None else found is not None and (
        found == expected if factor is None else abs(float(found) - expected * factor) <= 1e-12 * abs(expected * factor))
    agreed += good
    if not good:
        faults.append(f"{what}: {found} in the certificate, {expected} in the evaluation")


def number(element, path):
    text = element.findtext(path)
    return None if text is None else float(text)


def check_real(what, real, value, unit, uncertainty=None):
    spelling, factor = INCHES.get(unit, (UNITS.get(unit), None))
    same(what + " unit", real.findtext(SI + "unit"), spelling)
    same(what, number(real, SI + "value"), value, factor)
    path = f"{SI}measurementUncertaintyUnivariate/{SI}expandedMU/{SI}"
    for key, name in ("expanded", "valueExpandedMU"), ("coverage_factor", "coverageFactor"), ("coverage", "coverageProbability"):
        rescaled = factor if key == "expanded" else None
        same(f"{what} {key}", number(real, path + name), uncertainty and uncertainty[key], rescaled)


def uncertainty_of(series, parameter, length=None, axes=None):
    for one in evaluation["uncertainty"]:
        if one["series"] == series and one["parameter"] == parameter and one.get("length_mm", length) == length and one.get("axes") == axes:
            return one
    return None


def check_conformity(result, decisions):
    data = result.findall(f"{DCC}measurementMetaData/{DCC}metaData")
    same("number of decisions", len(data), len(decisions))
    for one, decision in zip(data, decisions):
        same("verdict", one.findtext(DCC + "conformity"), WORDS[decision["outcome"]])
        limit = [q.find(SI + "real") for q in one.iter(DCC + "quantity") if q.findtext(f"{SI}real/{SI}label") == "limit"]
        check_real("limit", limit[0], decision["limit"], decision["unit"])


def check_lists(series, result):
    targets = {target["position"]: target for target in series["targets"]}
    held = 0
    for one in result.iter(DCC + "list"):
        columns = {q.findtext(f"{SI}realListXMLList/{SI}labelXMLList"): [float(v) for v in q.findtext(f"{SI}realListXMLList/{SI}valueXMLList").split()] for q in one.findall(DCC + "quantity")}
        inch = series["position_unit"] == "in"
        positions = [min(targets, key=lambda p: abs(p * 25.4 - at)) if inch else at for at in columns.pop("position")]
        for label, values in columns.items():
            held += len(values)
            for position, value in zip(positions, values):
                same(f"{series['id']} {label} at {position}", value, targets[position].get(label), INCHES.get(series["unit"], (0, None))[1] if not label.startswith("n_") else None)
    labels = ("mean_positive", "mean_negative", "mean", "s_positive", "s_negative", "reversal", "n_positive", "n_negative")
    same("values in lists", held, sum(label in target for target in series["targets"] for label in labels))


def check_series(series, result):
    reals = {r.findtext(SI + "label"): r for r in result.find(DCC + "results").iter(SI + "real")}
    for name, parameter in series["parameters"].items():
        value = parameter.get("value", parameter.get("stated"))
        check_real(f"{series['id']} {name}", reals[name], value, parameter["unit"], uncertainty_of(series["id"], name))
    for name in series["not_evaluated"]:
        if name not in series["parameters"]:
            same(f"{series['id']} {name}", name in reals, False)
    local = [r for r in result.iter(SI + "real") if r.findtext(SI + "label") == "local"]
    same("local straightness", len(local), len(series.get("local", [])))
    for real, one in zip(local, series.get("local", [])):
        check_real("local", real, one["straightness"], series["unit"], uncertainty_of(series["id"], "local", one["length"]))
    check_lists(series, result)
    check_conformity(result, [d for d in evaluation["decisions"] if d["series"] == series["id"] and "axes" not in d])


results = root.findall(f"{DCC}measurementResults/{DCC}measurementResult")
same("measurement results", len(results), len(evaluation["series"]) + len(evaluation["squareness"]))
for series, result in zip(evaluation["series"], results):
    check_series(series, result)
for squareness, result in zip(evaluation["squareness"], results[len(evaluation["series"]):]):
    reals = {r.findtext(SI + "label"): r for r in result.find(DCC + "results").iter(SI + "real")}
    if "value" in squareness:
        check_real("squareness", reals["squareness"], squareness["value"], "urad", uncertainty_of(squareness["from"][0], "squareness", axes=squareness["axes"]))
    check_conformity(result, [d for d in evaluation["decisions"] if d.get("axes") == squareness["axes"]])
print("\n".join(faults) if faults else f"{agreed} numbers agree")
sys.exit(1 if faults else 0)
