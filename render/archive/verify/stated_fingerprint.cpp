#include "archive/verify/checks.hpp"

#include "unpack/open_file.hpp"

#include <fmt/format.h>

namespace wayfolio::archive {
namespace {

/// The digits behind "sha256:" in a text; "" where there are none.
std::string digits_in(const std::string& text) {
    constexpr std::string_view mark = "sha256:";
    const std::size_t at = text.find(mark);
    if (at == std::string::npos) return {};
    const std::size_t from = at + mark.size();
    return text.substr(from, text.find_first_not_of("0123456789abcdef", from) - from);
}

/// What stands in an element of XMP as this program writes it.
std::string element_of(const std::string& packet, const std::string& element) {
    const std::size_t at = packet.find("<" + element + ">");
    return at == std::string::npos ? std::string() : packet.substr(at, packet.find("</", at) - at);
}

std::string keywords_of(QPDF& file) {
    unpack::Handle info = file.getTrailer().getKey("/Info");
    if (!info.isDictionary() || !info.getKey("/Keywords").isString()) return {};
    return info.getKey("/Keywords").getUTF8Value();
}

void hold_against(Check& check, const std::string& found, const std::string& stated, std::string_view where) {
    if (stated == found) return;
    check.holds = Holds::No;
    check.details.push_back(
        fmt::format("the list of inputs does not have the fingerprint that the file states: {} has {}, the list sha256:{}", where,
                    stated.empty() ? "none" : "sha256:" + stated, found));
}

}  // namespace

Check check_stated_fingerprint(const std::string& pdf, const Making& making) {
    Check check{.what = "fingerprint that the file states"};
    try {
        QPDF file;
        unpack::open_file(file, making.file, pdf);
        const std::string packet = unpack::packet_of(file);
        hold_against(check, making.fingerprint, digits_in(keywords_of(file)), "/Keywords");
        hold_against(check, making.fingerprint, digits_in(element_of(packet, "dc:identifier")), "dc:identifier in XMP");
        hold_against(check, making.fingerprint, digits_in(element_of(packet, "pdf:Keywords")), "pdf:Keywords in XMP");
    } catch (const std::runtime_error& error) {  // QPDFExc among them
        return {.what = check.what, .holds = Holds::No, .details = {error.what()}};
    }
    return check;
}

}  // namespace wayfolio::archive
