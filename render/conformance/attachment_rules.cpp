#include "conformance/checked_file.hpp"

#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>

#include <algorithm>
#include <array>
#include <set>

namespace wayfolio::conformance {

namespace {

/// ISO 32000-2, table 43.
bool is_relationship(Handle name) {
    constexpr std::array<const char*, 6> known{"/Source", "/Data", "/Alternative", "/Supplement", "/EncryptedPayload", "/Schema"};
    return std::ranges::any_of(known, [&](const char* one) { return name.isNameAndEquals(one); });
}

bool is_text(Handle value) { return value.isString() && !value.getUTF8Value().empty(); }

void check_specification(const CheckedFile& subject, Handle file, const std::string& name) {
    const auto fault = [&](const char* what) { subject.fault("attachments", name, what); };
    if (!is_text(file.getKey("/F")) || !is_text(file.getKey("/UF"))) fault("not both names");
    if (!is_text(file.getKey("/Desc"))) fault("no description");
    if (!is_relationship(file.getKey("/AFRelationship"))) fault("no relationship that there is");
    Handle stream = file.getKey("/EF").isDictionary() ? file.getKey("/EF").getKey("/F") : Handle::newNull();
    if (!stream.isStream()) return fault("no file");
    Handle type = stream.getDict().getKey("/Subtype"), parameters = stream.getDict().getKey("/Params");
    if (!type.isName() || type.getName().find('/', 1) == std::string::npos) fault("no media type");
    if (!parameters.isDictionary() || !is_text(parameters.getKey("/ModDate"))) fault("no date");
}

}  // namespace

void check_attachments(const CheckedFile& subject) {
    std::set<QPDFObjGen> associated;
    Handle all = subject.root().getKey("/AF");
    if (all.isArray())
        for (Handle one : all.getArrayAsVector()) associated.insert(one.getObjGen());
    QPDFEmbeddedFileDocumentHelper embedded(subject.file);
    std::size_t carried = 0;
    for (const auto& [name, specification] : embedded.getEmbeddedFiles()) {
        Handle file = specification->getObjectHandle();
        ++carried;
        check_specification(subject, file, name);
        if (!associated.contains(file.getObjGen())) subject.fault("attachments", name, "carried, but not associated");
    }
    if (associated.size() > carried) subject.fault("attachments", "catalog", "more files are associated than carried");
}

}  // namespace wayfolio::conformance
