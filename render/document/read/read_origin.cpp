#include "document/read/reading.hpp"
#include "input/digest.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <map>
#include <set>

namespace wayfolio::document {
namespace {

std::string read_sha256(ObjectReader& reader) {
    const Value* const member = reader.value().member("sha256");
    std::string digest = reader.text("sha256");
    std::ranges::transform(digest, digest.begin(),
                           [](char letter) { return letter >= 'A' && letter <= 'F' ? static_cast<char>(letter - 'A' + 'a') : letter; });
    const bool hex = digest.find_first_not_of("0123456789abcdef") == std::string::npos;
    if (member == nullptr || !member->is(JsonKind::String) || (hex && digest.size() == 64)) return digest;
    reader.faults().add_wrong(*member, "64 hexadecimal digits");
    return {};
}

/// A file that happens to lie beside the document under the name of the export: if it is there, it must be the one.
std::optional<std::string> bytes_beside(const std::string& name, const Reading& reading) {
    try {
        if (input::is_plain_file_name(name)) return reading.read_side_file(name);
    } catch (const input::InputMissing&) {}
    return std::nullopt;
}

void note_other_digest(const Value& digest, const std::string& file, const std::string& found, input::Faults& faults) {
    faults.add(digest, "the digest " + describe(digest) + " of another file",
               fmt::format("that of {} beside the document, {}", file, found),
               "the file or the document was changed since the readings were gathered, or another file took the export's name");
}

OriginFile read_origin_file(ObjectReader& reader, Reading& reading) {
    OriginFile read;
    read.file = reader.text("file");
    read.sha256 = read_sha256(reader);
    const Value *const kept = reader.find("kept"), *const digest = reader.value().member("sha256");
    if (kept == nullptr) {
        if (!read.sha256.empty()) reading.stated_digests.push_back({*digest, read.file, read.sha256});
        return read;
    }
    const auto bytes = read_side_file(*kept, reading);
    if (bytes) read.kept = kept->text;
    if (digest == nullptr) reader.faults().add_missing(reader.value(), "sha256", "the digest of the kept file");
    if (!bytes || read.sha256.empty()) return read;
    if (const std::string found = input::sha256_hex(*bytes); found != read.sha256)
        note_other_digest(*digest, read.kept, found, reader.faults());
    return read;
}

OriginFile read_origin_file(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object: file, sha256, kept");
    OriginFile read = read_origin_file(reader, reading);
    reader.finish();
    return read;
}

}  // namespace

OriginFile read_facts_file(const Value& value, Reading& reading) {
    const std::size_t stated = reading.stated_digests.size();
    OriginFile read = read_origin_file(value, reading);
    while (reading.stated_digests.size() > stated) reading.stated_digests.pop_back();
    return read;
}

void check_stated_digests(Reading& reading) {
    std::map<std::string, std::set<std::string>> stated;
    for (const StatedDigest& one : reading.stated_digests) stated[one.file].insert(one.sha256);
    for (const auto& [file, digests] : stated) {
        const auto bytes = bytes_beside(file, reading);
        if (!bytes) continue;
        // Two states have exports of one name; only one of them can lie here.
        const std::string found = input::sha256_hex(*bytes);
        if (digests.contains(found)) continue;
        for (const StatedDigest& one : reading.stated_digests)
            if (one.file == file) note_other_digest(one.at, file, found, reading.faults);
    }
}

Origin read_origin(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object: file and sha256, or files; mapping");
    Origin origin;
    const Value* const files = reader.find("files");
    OriginFile only = read_origin_file(reader, reading);
    if (!only.file.empty() || !only.sha256.empty()) origin.files.push_back(std::move(only));
    if (files != nullptr && !origin.files.empty()) reading.faults.add_key(*files, "\"file\" or \"files\", not both");
    for (const Value& item : reader.array("files", "an array of files", CountLimits::origin_files))
        origin.files.push_back(read_origin_file(item, reading));
    if (const Value* const mapping = reader.find("mapping")) origin.mapping = read_origin_file(*mapping, reading);
    origin.series = reader.text("series");
    reader.finish();
    return origin;
}

}  // namespace wayfolio::document
