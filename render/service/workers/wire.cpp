#include "service/workers/wire.hpp"

#include <array>
#include <cstring>

namespace wayfolio::service {
namespace {

void append_length(std::string& to, WireLength length) { to.append(reinterpret_cast<const char*>(&length), sizeof length); }

template <std::size_t count>
std::string packed(const std::array<std::string_view, count>& parts) {
    WireLength whole = 0;
    for (const std::string_view part : parts) whole += sizeof(WireLength) + part.size();
    std::string bytes;
    bytes.reserve(sizeof whole + whole);
    append_length(bytes, whole);
    for (const std::string_view part : parts) {
        append_length(bytes, part.size());
        bytes += part;
    }
    return bytes;
}

/// Takes the next text off the front.
std::optional<std::string> take(std::string_view& bytes) {
    WireLength length = 0;
    if (bytes.size() < sizeof length) return std::nullopt;
    std::memcpy(&length, bytes.data(), sizeof length);
    bytes.remove_prefix(sizeof length);
    if (bytes.size() < length) return std::nullopt;
    std::string text(bytes.substr(0, length));
    bytes.remove_prefix(length);
    return text;
}

template <std::size_t count>
std::optional<std::array<std::string, count>> unpacked(std::string_view bytes) {
    std::array<std::string, count> parts;
    for (std::string& part : parts) {
        auto text = take(bytes);
        if (!text) return std::nullopt;
        part = std::move(*text);
    }
    return parts;
}

}  // namespace

std::string to_wire(const Request& request) {
    return packed<8>({request.method, request.path, request.query, request.content_type, request.if_none_match, request.key, request.errand,
                      request.body});
}

std::string to_wire(const Answer& answer) {
    const std::string status = std::to_string(answer.status);
    return packed<5>({status, answer.content_type, answer.etag, answer.location, answer.body});
}

std::optional<Request> request_from_wire(std::string_view bytes) {
    auto parts = unpacked<8>(bytes);
    if (!parts) return std::nullopt;
    auto& [method, path, query, content_type, if_none_match, key, errand, body] = *parts;
    return Request{std::move(method),        std::move(path), std::move(query), std::move(content_type),
                   std::move(if_none_match), std::move(body), std::move(key),
                   std::move(errand)};
}

std::optional<Answer> answer_from_wire(std::string_view bytes) {
    auto parts = unpacked<5>(bytes);
    if (!parts) return std::nullopt;
    auto& [status, content_type, etag, location, body] = *parts;
    return Answer{static_cast<unsigned>(std::stoul(status)), std::move(content_type), std::move(body), std::move(etag),
                  std::move(location)};
}

}  // namespace wayfolio::service
