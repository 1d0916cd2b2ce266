#pragma once
#include "conformance/conformance.hpp"
#include "output/output.hpp"
#include "output/pdf/qpdf.hpp"
#include "support/sample_pages.hpp"

#include <functional>
#include <qpdf/QPDFWriter.hh>
#include <set>

/// A PDF that keeps every rule, and ways to break it in one place.
namespace wayfolio::testing {

using Handle = QPDFObjectHandle;

inline std::string two_page_pdf() {
    const output::Metadata about{.title = "Report 17",
                                 .author = "Nobody & Sons",
                                 .subject = "Invented data",
                                 .keywords = "axis",
                                 .created = "2026-03-02T10:20:30+01:00"};
    return output::pdf(two_pages(), about, shaper(),
                       {{.name = "a.json", .mime = "application/json", .bytes = "{}", .description = "Data"}});
}

inline const std::string& sound_pdf() {
    static const std::string pdf = two_page_pdf();
    return pdf;
}

using Change = std::function<void(QPDF&)>;

/// The PDF with its objects changed, written as the program writes it but for what `set` asks of the writer.
inline std::string written(const std::string& pdf, const Change& change, const std::function<void(QPDFWriter&)>& set = [](QPDFWriter&) {}) {
    QPDF file;
    file.processMemoryFile("pdf", pdf.data(), pdf.size());
    change(file);
    QPDFWriter writer(file);
    writer.setOutputMemory();
    writer.setMinimumPDFVersion("1.7");
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setNewlineBeforeEndstream(/*val=*/true);
    set(writer);
    writer.write();
    const std::shared_ptr<Buffer> buffer = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

inline std::set<std::string> broken_rules(const std::string& pdf) {
    std::set<std::string> rules;
    for (const conformance::Fault& fault : conformance::faults_of(pdf)) rules.insert(fault.rule);
    return rules;
}

/// The first dictionary, or stream by its dictionary, in which `key` has the name `name`.
inline Handle first(QPDF& file, const char* key, const char* name) {
    for (Handle object : file.getAllObjects()) {
        if (object.isDictionary() && object.getKey(key).isNameAndEquals(name)) return object;
        if (object.isStream() && object.getDict().getKey(key).isNameAndEquals(name)) return object;
    }
    throw std::logic_error(std::string("no object with ") + name);
}

inline Handle first_element(QPDF& file, const char* type) { return first(file, "/S", type); }

/// The number of the first marked content on the first page.
inline int first_mark(QPDF& file) {
    Handle page = file.getAllPages().front();
    const std::shared_ptr<Buffer> data = page.getKey("/Contents").getStreamData();
    const std::string content(reinterpret_cast<const char*>(data->getBuffer()), data->getSize()), before = "/MCID ";
    return std::stoi(content.substr(content.find(before) + before.size()));
}

/// The first page's content with the first of its tags `/tag` named anew.
inline void change_tag(QPDF& file, const std::string& tag, const std::string& other) {
    Handle page = file.getAllPages().front(), contents = page.getKey("/Contents");
    const std::shared_ptr<Buffer> data = contents.getStreamData();
    std::string text(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
    const std::size_t at = text.find("/" + tag + " <<");
    if (at == std::string::npos) throw std::logic_error("no content is tagged " + tag);
    contents.replaceStreamData(text.replace(at + 1, tag.size(), other), Handle::newNull(), Handle::newNull());
}

inline void append_content(QPDF& file, const std::string& operators) {
    Handle page = file.getAllPages().front(), contents = page.getKey("/Contents");
    const std::shared_ptr<Buffer> data = contents.getStreamData();
    contents.replaceStreamData(std::string(reinterpret_cast<const char*>(data->getBuffer()), data->getSize()) + operators,
                               Handle::newNull(), Handle::newNull());
}

/// A stream with every `part` of its bytes changed.
inline void change_stream(Handle stream, const std::string& part, const std::string& other) {
    const std::shared_ptr<Buffer> data = stream.getStreamData();
    std::string text(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
    if (text.find(part) == std::string::npos) throw std::logic_error("the stream has no " + part);
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + other.size()))
        text.replace(at, part.size(), other);
    stream.replaceStreamData(text, Handle::newNull(), Handle::newNull());
}

inline void change_packet(QPDF& file, const std::string& part, const std::string& other) {
    change_stream(file.getRoot().getKey("/Metadata"), part, other);
}

inline void add_picture(QPDF& file, const char* key, Handle value) {
    Handle picture = file.newStream("x");
    for (const auto& [name, what] : {std::pair("/Type", "/XObject"), std::pair("/Subtype", "/Image")})
        picture.getDict().replaceKey(name, Handle::newName(what));
    picture.getDict().replaceKey(key, value);
    file.getRoot().replaceKey("/XPicture", picture);
}

}  // namespace wayfolio::testing
