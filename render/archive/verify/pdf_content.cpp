#include "archive/verify/pdf_content.hpp"

#include "archive/verify/unicode_map.hpp"
#include "input/problem.hpp"
#include "unpack/open_file.hpp"

#include <qpdf/QPDFPageObjectHelper.hh>

#include <map>
#include <set>
#include <stdexcept>
#include <utility>

namespace wayfolio::archive {
namespace {

using unpack::Handle;

/// Sorts the operators of a content stream into texts and drawing.
class ContentReader : public Handle::ParserCallbacks {
public:
    ContentReader(Handle resources, unpack::StreamUnpacker& unpacker, int& forms_left, PageContent& into)
        : resources_(std::move(resources)), unpacker_(unpacker), forms_left_(forms_left), into_(into) {}
    void handleObject(Handle object, std::size_t, std::size_t) override {
        if (object.isOperator())
            take(object.getOperatorValue());
        else
            operands_.push_back(object);
    }
    void handleEOF() override {}

private:
    void take(const std::string& name) {
        if (name == "BT") text_.clear();
        else if (name == "ET") into_.texts.push_back(text_);
        else if (name == "Tf" && operands_.size() == 2) select_font(operands_[0].getName());
        else if (name == "Tj" || name == "TJ") show(operands_.empty() ? Handle::newNull() : operands_.back());
        else draw(name);
        if (name == "Do" && !operands_.empty()) show_form(operands_.back().getName());
        operands_.clear();
    }
    void select_font(const std::string& name) {
        const auto [known, is_new] = fonts_.try_emplace(name);
        if (is_new) known->second = unicode_map(resources_.getKey("/Font").getKey(name), unpacker_);
        font_ = &known->second;
    }
    void show(Handle shown) {
        for (Handle part : shown.isArray() ? shown.getArrayAsVector() : std::vector<Handle>{shown}) {
            if (part.isString() && font_) text_ += decoded(part.getStringValue(), *font_);
            if (part.isNumber()) into_.drawing += part.unparse() + " ";  // spacing between glyphs
        }
    }
    void draw(const std::string& name) {
        for (Handle& operand : operands_) into_.drawing += operand.unparse() + " ";
        into_.drawing += name + "\n";
    }
    /// Pictures: their pixels, or the drawing inside a form.
    void show_form(const std::string& name) {
        Handle object = resources_.getKey("/XObject").getKey(name);
        if (!object.isStream()) return;
        if (--forms_left_ < 0) throw std::runtime_error("its pages draw forms and pictures more often than can be read");
        if (++depth_ > most_depth) throw std::runtime_error("its forms draw each other too deeply");
        if (object.getDict().getKey("/Subtype").isNameAndEquals("/Image"))
            into_.drawing += unpacker_.unpacked(object);
        else
            read_form(object);
        --depth_;
    }
    void read_form(Handle object) {
        const Handle outer = resources_;
        const auto outer_fonts = std::exchange(fonts_, {});
        const UnicodeMap* const outer_font = std::exchange(font_, nullptr);
        auto outer_operands = std::exchange(operands_, {});
        resources_ = object.getDict().getKey("/Resources");
        unpack::parse_content(unpacker_.content(object), *this);
        resources_ = outer;
        fonts_ = outer_fonts;
        font_ = outer_font;
        operands_ = std::move(outer_operands);
    }

    static constexpr int most_depth = 20;
    Handle resources_;
    unpack::StreamUnpacker& unpacker_;
    int& forms_left_;
    PageContent& into_;
    std::vector<Handle> operands_;
    std::map<std::string, UnicodeMap> fonts_;
    const UnicodeMap* font_ = nullptr;
    std::string text_;
    int depth_ = 0;
};

/// @param seen elements that were read: a damaged tree may lead in circles
void read_structure(Handle element, std::string& into, std::set<QPDFObjGen>& seen, int depth) {
    constexpr int most_depth = 200;
    constexpr std::size_t longest = std::size_t{16} << 20;
    if (!element.isDictionary() || depth > most_depth || into.size() > longest) return;
    if (element.isIndirect() && !seen.insert(element.getObjGen()).second) return;
    if (element.hasKey("/S")) {
        into.append(static_cast<std::size_t>(depth), ' ').append(element.getKey("/S").getName());
        for (const char* key : {"/Alt", "/ActualText"})
            if (element.getKey(key).isString()) into += " " + element.getKey(key).getUTF8Value();
        if (element.getKey("/A").isDictionary())
            for (const char* key : {"/Scope", "/ColSpan", "/RowSpan"})
                if (element.getKey("/A").hasKey(key)) into += " " + element.getKey("/A").getKey(key).unparse();
        into += "\n";
    }
    Handle kids = element.getKey("/K");
    if (kids.isArray())
        for (Handle kid : kids.getArrayAsVector()) read_structure(kid, into, seen, depth + 1);
    else
        read_structure(kids, into, seen, depth + 1);
}

/// @param item the first of its level
void read_bookmarks(Handle item, std::string& into, int depth) {
    // A damaged outline may lead in circles.
    constexpr int most_depth = 50;
    constexpr std::size_t longest = std::size_t{1} << 20;
    for (; item.isDictionary() && depth < most_depth && into.size() < longest; item = item.getKey("/Next")) {
        into.append(static_cast<std::size_t>(depth), ' ')
            .append(item.getKey("/Title").isString() ? item.getKey("/Title").getUTF8Value() : "(no title)")
            .append("\n");
        read_bookmarks(item.getKey("/First"), into, depth + 1);
    }
}

void read_attachments(QPDF& file, std::string& into) {
    QPDFEmbeddedFileDocumentHelper embedded(file);
    for (const auto& [name, specification] : embedded.getEmbeddedFiles()) {
        Handle relationship = specification->getObjectHandle().getKey("/AFRelationship");
        into += name + " " + (relationship.isName() ? relationship.getName() : "(no relationship)") + "\n";
    }
}

PdfContent read(const std::string& pdf, const std::string& name) {
    QPDF file;
    unpack::open_file(file, name, pdf);
    PdfContent content;
    unpack::StreamUnpacker unpacker(unpack::most_content(pdf.size()));
    constexpr int most_forms = 20'000;
    int forms_left = most_forms;
    for (Handle page : file.getAllPages()) {
        PageContent& into = content.pages.emplace_back();
        QPDFPageObjectHelper helper(page);
        ContentReader reader(helper.getAttribute("/Resources", /*copy_if_shared=*/false), unpacker, forms_left, into);
        unpack::parse_content(unpacker.content(page.getKey("/Contents")), reader);
    }
    std::set<QPDFObjGen> seen;
    read_structure(file.getRoot().getKey("/StructTreeRoot"), content.structure, seen, 0);
    content.metadata = unpack::packet_of(file);
    if (Handle outlines = file.getRoot().getKey("/Outlines"); outlines.isDictionary())
        read_bookmarks(outlines.getKey("/First"), content.bookmarks, 0);
    read_attachments(file, content.attachments);
    for (const QPDFExc& warning : file.getWarnings()) content.warnings.emplace_back(warning.what());
    return content;
}

}  // namespace

PdfContent content_of(const std::string& pdf, const std::string& name) {
    try {
        return read(pdf, name);
    } catch (const std::runtime_error& error) {  // QPDFExc among them
        throw input::InputRejected({{name, {}, error.what(), "a sound PDF", ""}});
    }
}

}  // namespace wayfolio::archive
