#include "conformance/mutations.hpp"
#include "produce/produce.hpp"
#include "document/read_document.hpp"

#include <catch2/catch.hpp>
#include <qpdf/QPDFNumberTreeObjectHelper.hh>

using namespace wayfolio;
using namespace wayfolio::testing;

namespace {

struct Mutation {
    const char* rule;
    Change change;
};

Handle catalog(QPDF& file) { return file.getRoot(); }
Handle page(QPDF& file) { return file.getAllPages().front(); }
Handle link_on(QPDF& file) {
    for (Handle one : file.getAllPages())
        if (Handle annotations = one.getKey("/Annots"); annotations.isArray() && annotations.getArrayNItems() > 0)
            return annotations.getArrayItem(0);
    throw std::logic_error("no link");
}
Handle parents(QPDF& file) {
    Handle found;
    QPDFNumberTreeObjectHelper(catalog(file).getKey("/StructTreeRoot").getKey("/ParentTree"), file)
        .findObject(page(file).getKey("/StructParents").getIntValue(), found);
    return found;
}
Handle attachment(QPDF& file) { return catalog(file).getKey("/AF").getArrayItem(0); }
void remove_from_catalog(QPDF& file, const char* key) { catalog(file).removeKey(key); }
void set_name(Handle object, const char* key, const char* name) { object.replaceKey(key, Handle::newName(name)); }

/// The first page's font of a kind, by its resource name.
std::string font_called(QPDF& file, const char* subtype) {
    for (auto& [name, font] : page(file).getKey("/Resources").getKey("/Font").getDictAsMap())
        if (font.getKey("/Subtype").isNameAndEquals(subtype)) return name;
    throw std::logic_error("no such font");
}

std::string repeated(const std::string& part, int times) {
    std::string made;
    for (int i = 0; i < times; ++i) made += part;
    return made;
}

/// More for the map to Unicode of the first composite font.
void add_to_unicode(QPDF& file, const std::string& part) {
    change_stream(first(file, "/Subtype", "/Type0").getKey("/ToUnicode"), "endcmap", part + " endcmap");
}

void add_state(QPDF& file, const char* blend_mode) {
    Handle state = Handle::parse("<< /Type /ExtGState >>");
    set_name(state, "/BM", blend_mode);
    Handle resources = page(file).getKey("/Resources");
    if (!resources.hasKey("/ExtGState")) resources.replaceKey("/ExtGState", Handle::newDictionary());
    resources.getKey("/ExtGState").replaceKey("/XState", state);
}

/// Every width of the first simple font, so that those of glyphs that are shown are among them.
void widen_simple(QPDF& file) {
    Handle widths = page(file).getKey("/Resources").getKey("/Font").getKey(font_called(file, "/Type1")).getKey("/Widths");
    for (int i = 0; i < widths.getArrayNItems(); ++i) widths.setArrayItem(i, Handle::newInteger(widths.getArrayItem(i).getIntValue() + 2));
}

void widen_composite(QPDF& file, const char* subtype) {
    Handle widths = first(file, "/Subtype", subtype).getKey("/W").getArrayItem(1);
    for (int i = 0; i < widths.getArrayNItems(); ++i) widths.setArrayItem(i, Handle::newInteger(widths.getArrayItem(i).getIntValue() + 2));
}

/// An annotation that nothing in the structure knows of.
void add_note(QPDF& file) {
    Handle note = file.makeIndirectObject(Handle::parse("<< /Type /Annot /Subtype /Text /F 4 /Rect [0 0 9 9] /Contents (n) >>"));
    if (!page(file).hasKey("/Annots")) page(file).replaceKey("/Annots", Handle::newArray());
    page(file).getKey("/Annots").appendItem(note);
}

const std::vector<Mutation>& mutations() {
    static const std::vector<Mutation> all{
        {"catalog-language", [](QPDF& f) { remove_from_catalog(f, "/Lang"); }},
        {"catalog-marked", [](QPDF& f) { remove_from_catalog(f, "/MarkInfo"); }},
        {"catalog-suspects", [](QPDF& f) { catalog(f).getKey("/MarkInfo").replaceKey("/Suspects", Handle::newBool(/*value=*/true)); }},
        {"catalog-title", [](QPDF& f) { remove_from_catalog(f, "/ViewerPreferences"); }},
        {"catalog-actions", [](QPDF& f) { catalog(f).replaceKey("/OpenAction", Handle::parse("<< /S /JavaScript /JS (1) >>")); }},
        {"catalog-actions", [](QPDF& f) { link_on(f).replaceKey("/A", Handle::parse("<< /S /Launch /F (x) >>")); }},
        {"intent", [](QPDF& f) { remove_from_catalog(f, "/OutputIntents"); }},
        {"intent",
         [](QPDF& f) {
             catalog(f)
                 .getKey("/OutputIntents")
                 .getArrayItem(0)
                 .getKey("/DestOutputProfile")
                 .replaceStreamData("x", Handle::newNull(), Handle::newNull());
         }},
        {"metadata", [](QPDF& f) { remove_from_catalog(f, "/Metadata"); }},
        {"metadata-part", [](QPDF& f) { change_packet(f, "<pdfaid:part>3", "<pdfaid:part>2"); }},
        {"metadata-part", [](QPDF& f) { change_packet(f, "<pdfaid:conformance>A", "<pdfaid:conformance>B"); }},
        {"metadata-ua", [](QPDF& f) { change_packet(f, "<pdfuaid:part>1", "<pdfuaid:part>2"); }},
        {"metadata-ua", [](QPDF& f) { change_packet(f, "<pdfaSchema:prefix>pdfuaid", "<pdfaSchema:prefix>other"); }},
        {"metadata-title", [](QPDF& f) { change_packet(f, "dc:title", "dc:other"); }},
        {"metadata-xml", [](QPDF& f) { change_packet(f, "</dc:title>", ""); }},
        {"metadata-xml", [](QPDF& f) { change_packet(f, "Nobody &amp; Sons", "Nobody & Sons"); }},
        {"metadata-xml", [](QPDF& f) { change_packet(f, "xmlns:dc=", "xmlns:cd="); }},
        {"metadata-xml", [](QPDF& f) { change_packet(f, "</x:xmpmeta>", "</x:xmpmeta><x/>"); }},
        {"metadata-xml", [](QPDF& f) { change_packet(f, "rdf:about=\"\"", "rdf:about=\"\" rdf:about=\"\""); }},
        {"metadata-xml", [](QPDF& f) { change_packet(f, "rdf:about=\"\"", "rdf:about=<>"); }},
        {"metadata-schemas", [](QPDF& f) { change_packet(f, "<xmp:CreateDate>", "<xmp:Colour>red</xmp:Colour><xmp:CreateDate>"); }},
        {"metadata-schemas", [](QPDF& f) { change_packet(f, "http://purl.org/dc/elements/1.1/", "http://example.org/own/"); }},
        {"metadata-schemas", [](QPDF& f) { change_packet(f, "<pdfaProperty:name>part", "<pdfaProperty:name>amd"); }},
        {"metadata-info", [](QPDF& f) { f.getTrailer().getKey("/Info").replaceKey("/Title", Handle::newString("Another")); }},
        {"metadata-info",
         [](QPDF& f) { f.getTrailer().getKey("/Info").replaceKey("/ModDate", Handle::newString("D:20260302102031+01'00'")); }},
        {"stream-filters", [](QPDF& f) { add_picture(f, "/F", Handle::newString("elsewhere")); }},
        {"limits", [](QPDF& f) { first_element(f, "/Figure").replaceKey("/Alt", Handle::newString(std::string(32'768, 'x'))); }},
        {"limits", [](QPDF& f) { catalog(f).replaceKey("/XName", Handle::newName("/" + std::string(128, 'x'))); }},
        {"limits", [](QPDF& f) { catalog(f).replaceKey("/XNumber", Handle::newArray({Handle::newInteger(2'147'483'648)})); }},
        {"limits", [](QPDF& f) { append_content(f, "\n" + repeated("q ", 29) + repeated("Q ", 29) + "\n"); }},
        {"blend-modes", [](QPDF& f) { add_state(f, "/Glowing"); }},
        {"image-interpolation", [](QPDF& f) { add_picture(f, "/Interpolate", Handle::newBool(/*value=*/true)); }},
        {"font-embedded",
         [](QPDF& f) {
             for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"}) first(f, "/Type", "/FontDescriptor").removeKey(key);
         }},
        {"font-unicode",
         [](QPDF& f) {
             first(f, "/Type", "/Font").removeKey("/ToUnicode");
             first(f, "/Subtype", "/Type0").removeKey("/ToUnicode");
         }},
        {"font-unicode-values", [](QPDF& f) { add_to_unicode(f, "1 beginbfchar <0009> <0000> endbfchar"); }},
        {"font-unicode-values", [](QPDF& f) { add_to_unicode(f, "1 beginbfchar <0009> <FEFF> endbfchar"); }},
        {"font-unicode-values", [](QPDF& f) { add_to_unicode(f, "1 beginbfrange <0007> <0009> <FFFD> endbfrange"); }},
        {"unicode-private", [](QPDF& f) { add_to_unicode(f, "1 beginbfrange <0000> <00FF> <E000> endbfrange"); }},
        {"font-widths", [](QPDF& f) { widen_simple(f); }},
        {"font-widths", [](QPDF& f) { widen_composite(f, "/CIDFontType0"); }},
        {"font-widths", [](QPDF& f) { widen_composite(f, "/CIDFontType2"); }},
        {"font-glyph-map", [](QPDF& f) { first(f, "/Subtype", "/CIDFontType2").removeKey("/CIDToGIDMap"); }},
        {"colour", [](QPDF& f) { append_content(f, "\n0 0 0 1 k\n"); }},
        {"colour", [](QPDF& f) { add_picture(f, "/ColorSpace", Handle::newName("/DeviceCMYK")); }},
        {"glyph-missing",
         [](QPDF& f) { append_content(f, "\n/Artifact BMC BT " + font_called(f, "/Type0") + " 9 Tf <0000> Tj ET EMC\n"); }},
        {"page-text", [](QPDF& f) { page(f).getKey("/Contents").replaceStreamData("", Handle::newNull(), Handle::newNull()); }},
        {"content-tagged", [](QPDF& f) { append_content(f, "\n0 0 10 10 re f\n"); }},
        {"content-tagged", [](QPDF& f) { append_content(f, "\n/P << /MCID 999 >> BDC EMC\n"); }},
        {"content-operators", [](QPDF& f) { append_content(f, "\nBX 1 glow EX\n"); }},
        {"content-balance", [](QPDF& f) { append_content(f, "\nEMC\n"); }},
        {"content-balance", [](QPDF& f) { append_content(f, "\n/Artifact BMC\n"); }},
        {"content-tags", [](QPDF& f) { change_tag(f, "P", "H1"); }},
        {"artifact-nesting", [](QPDF& f) { append_content(f, "\n/Artifact BMC /Artifact BMC EMC EMC\n"); }},
        {"artifact-nesting", [](QPDF& f) { append_content(f, "\n/Artifact BMC /P << /MCID 999 >> BDC EMC EMC\n"); }},
        {"artifact-nesting", [](QPDF& f) { append_content(f, "\n/P << /MCID 999 >> BDC /Artifact BMC EMC EMC\n"); }},
        {"content-once", [](QPDF& f) { append_content(f, "\n/P << /MCID " + std::to_string(first_mark(f)) + " >> BDC EMC\n"); }},
        {"parent-tree", [](QPDF& f) { parents(f).setArrayItem(first_mark(f), first_element(f, "/Document")); }},
        {"structure-root", [](QPDF& f) { set_name(first_element(f, "/Document"), "/S", "/Sect"); }},
        {"structure-root", [](QPDF& f) { remove_from_catalog(f, "/StructTreeRoot"); }},
        {"structure-types", [](QPDF& f) { set_name(first_element(f, "/P"), "/S", "/Nonsense"); }},
        {"structure-parents", [](QPDF& f) { first_element(f, "/TR").replaceKey("/P", first_element(f, "/Document")); }},
        {"structure-order",
         [](QPDF& f) {
             Handle document = first_element(f, "/Document");
             std::vector<Handle> kids = document.getKey("/K").getArrayAsVector();
             document.replaceKey("/K", Handle::newArray({kids.rbegin(), kids.rend()}));
         }},
        {"figure-alternative", [](QPDF& f) { first_element(f, "/Figure").removeKey("/Alt"); }},
        {"figure-box", [](QPDF& f) { first_element(f, "/Figure").removeKey("/A"); }},
        {"heading-levels", [](QPDF& f) { set_name(first_element(f, "/H1"), "/S", "/H3"); }},
        {"table-cells",
         [](QPDF& f) {
             Handle kids = first_element(f, "/TR").getKey("/K");
             kids.eraseItem(kids.getArrayNItems() - 1);
         }},
        {"table-cells", [](QPDF& f) { first_element(f, "/TH").getKey("/A").replaceKey("/RowSpan", Handle::newInteger(2)); }},
        {"table-cells", [](QPDF& f) { set_name(first_element(f, "/TR"), "/S", "/P"); }},
        {"table-cells", [](QPDF& f) { set_name(first_element(f, "/Table"), "/S", "/Sect"); }},
        {"table-scopes", [](QPDF& f) { first_element(f, "/TH").removeKey("/A"); }},
        {"table-empty-heads", [](QPDF& f) { first_element(f, "/TH").removeKey("/K"); }},
        {"table-columns",
         [](QPDF& f) {
             for (Handle one : f.getAllObjects())
                 if (one.isDictionary() && one.getKey("/S").isNameAndEquals("/TH")) set_name(one.getKey("/A"), "/Scope", "/Row");
         }},
        {"note-ids", [](QPDF& f) { first_element(f, "/Note").removeKey("/ID"); }},
        {"link-description", [](QPDF& f) { link_on(f).removeKey("/Contents"); }},
        {"link-structure", [](QPDF& f) { link_on(f).removeKey("/StructParent"); }},
        {"link-structure", [](QPDF& f) { first_element(f, "/Link").removeKey("/K"); }},
        {"annotation-structure", [](QPDF& f) { set_name(link_on(f), "/Subtype", "/Text"); }},
        {"annotation-structure", [](QPDF& f) { add_note(f); }},
        {"link-target",
         [](QPDF& f) {
             link_on(f).removeKey("/A");
             link_on(f).replaceKey("/Dest", Handle::newString("nowhere"));
         }},
        {"annotation-flags", [](QPDF& f) { link_on(f).replaceKey("/F", Handle::newInteger(2)); }},
        {"page-tabs",
         [](QPDF& f) {
             for (Handle one : f.getAllPages()) one.removeKey("/Tabs");
         }},
        {"attachments", [](QPDF& f) { set_name(attachment(f), "/AFRelationship", "/Nonsense"); }},
        {"attachments", [](QPDF& f) { attachment(f).removeKey("/UF"); }},
        {"attachments", [](QPDF& f) { attachment(f).removeKey("/Desc"); }},
        {"attachments", [](QPDF& f) { attachment(f).getKey("/EF").getKey("/F").getDict().removeKey("/Subtype"); }},
        {"attachments", [](QPDF& f) { attachment(f).getKey("/EF").getKey("/F").getDict().removeKey("/Params"); }},
        {"attachments", [](QPDF& f) { remove_from_catalog(f, "/AF"); }},
        {"navigation", [](QPDF& f) { catalog(f).getKey("/Outlines").replaceKey("/Count", Handle::newInteger(-1)); }},
        {"navigation",
         [](QPDF& f) {
             catalog(f).getKey("/Outlines").getKey("/First").replaceKey("/Dest", Handle::newArray());
             catalog(f).getKey("/Outlines").getKey("/First").removeKey("/A");
         }},
        {"navigation", [](QPDF& f) { remove_from_catalog(f, "/PageLabels"); }},
        {"navigation", [](QPDF& f) { remove_from_catalog(f, "/Outlines"); }},
    };
    return all;
}

std::string replaced(std::string bytes, const std::string& part, const std::string& other) {
    const std::size_t at = bytes.rfind(part);
    REQUIRE(at != std::string::npos);
    return bytes.replace(at, part.size(), other);
}

/// Faults of the file itself, which no writer would write.
std::vector<std::pair<std::string, std::string>> broken_files() {
    const Change none = [](QPDF&) {};
    return {
        {"file-header", replaced(sound_pdf(), "%PDF-1.7", "%PDF-2.0")},
        {"file-id", replaced(sound_pdf(), "/ID [", "/IX [")},
        {"file-encryption",
         written(sound_pdf(), none,
                 [](QPDFWriter& w) { w.setR6EncryptionParameters("", "owner", true, true, true, true, true, true, qpdf_r3p_full, true); })},
        {"file-end", sound_pdf() + "\n% more"},
        {"file-streams", written(sound_pdf(), none, [](QPDFWriter& w) { w.setNewlineBeforeEndstream(/*val=*/false); })},
        {"file-streams", replaced(sound_pdf(), "\nendstream", " endstream")},
        {"file-syntax", replaced(sound_pdf(), "startxref\n", "startxref\n9")},
        {"file-syntax", "no PDF"}};
}

}  // namespace

TEST_CASE("a PDF of this program keeps every rule, also when it is written anew") {
    CHECK(broken_rules(sound_pdf()) == std::set<std::string>{});
    CHECK(broken_rules(written(sound_pdf(), [](QPDF&) {})) == std::set<std::string>{});
}

TEST_CASE("the word endstream in a string, a stream or a packet is no fault of the file") {
    const auto about = [](QPDF& f) {
        const std::string title = "(endstream) is xendstream";
        f.getTrailer().getKey("/Info").replaceKey("/Title", Handle::newString(title));
        change_packet(f, "Report 17", title);
    };
    const auto in_the_open = [](QPDFWriter& w) {
        w.setObjectStreamMode(qpdf_o_disable);
        w.setCompressStreams(/*val=*/false);
    };
    const std::string pdf = written(sound_pdf(), about, in_the_open);
    REQUIRE(pdf.find("xendstream") != std::string::npos);
    CHECK(broken_rules(pdf) == std::set<std::string>{});
}

TEST_CASE("each rule is proved by a change that breaks it") {
    for (const Mutation& mutation : mutations()) {
        INFO(mutation.rule);
        CHECK(broken_rules(written(sound_pdf(), mutation.change)).contains(mutation.rule));
    }
    for (const auto& [rule, bytes] : broken_files()) {
        INFO(rule);
        CHECK(broken_rules(bytes).contains(rule));
    }
}

TEST_CASE("no rule is without a change that proves it, and every fault names a rule") {
    std::set<std::string> named, proved;
    for (const conformance::Rule& rule : conformance::rules()) named.emplace(rule.name);
    for (const Mutation& mutation : mutations()) proved.insert(mutation.rule);
    for (const auto& [rule, bytes] : broken_files()) proved.insert(rule);
    CHECK(proved == named);
}

TEST_CASE("reports and figures of the samples keep every rule, in every layout and on both papers", "[slow][again]") {
    const std::filesystem::path source = WAYFOLIO_SOURCE_FOLDER;
    for (const char* sample : {"sample-results/short-axis.json", "sample-results/rotary-axis.json", "sample-results/smallest.json",
                               "tests/golden/awkward/logo-beside.json", "tests/golden/awkward/two-axes-and-square.json"}) {
        const auto document = document::read_document(source / sample);
        const auto evaluation = evaluate::evaluate(document);
        for (const std::string& name : layouts::shipped_layouts())
            for (const char* paper : {"A4", "Letter"}) {
                INFO(sample << " " << name << " " << paper);
                const auto layout = layouts::read_layout(name, paper);
                const produce::Drawing drawing{document, evaluation, layout, shaper()};
                for (const auto& fault : conformance::faults_of(produce::report_pdf(drawing)))
                    FAIL_CHECK(fault.rule << ": " << fault.where << ": " << fault.what);
            }
        const auto layout = layouts::read_layout("figures", "A4");
        const produce::Drawing drawing{document, evaluation, layout, shaper()};
        const auto figure = produce::figure_names(document, evaluation).front();
        for (const auto& fault : conformance::faults_of(produce::figure_bytes(drawing, figure, {produce::FigureFormat::Pdf})))
            FAIL_CHECK(sample << " figure: " << fault.rule << ": " << fault.where << ": " << fault.what);
    }
}
