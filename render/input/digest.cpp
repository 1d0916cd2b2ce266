#include "input/digest.hpp"

#include <nettle/sha2.h>

#include <array>
#include <cstdint>
#include <variant>

namespace wayfolio::input {

namespace {

const std::uint8_t* octets(std::string_view bytes) { return reinterpret_cast<const std::uint8_t*>(bytes.data()); }

template <std::size_t Size>
std::string hex_of(const std::array<std::uint8_t, Size>& sum) {
    constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    hex.reserve(2 * Size);
    for (const std::uint8_t byte : sum) {
        hex += digits[byte >> 4];
        hex += digits[byte & 0xF];
    }
    return hex;
}

}  // namespace

struct Digest::Private {
    std::variant<sha256_ctx, sha512_ctx> state;
};

Digest::Digest(DigestKind kind) : private_(std::make_unique<Private>()) {
    switch (kind) {
        case DigestKind::Sha256:
            sha256_init(&private_->state.emplace<sha256_ctx>());
            return;
        case DigestKind::Sha512:
            sha512_init(&private_->state.emplace<sha512_ctx>());
            return;
    }
}
Digest::~Digest() = default;
Digest::Digest(Digest&&) noexcept = default;
Digest& Digest::operator=(Digest&&) noexcept = default;

void Digest::add(std::string_view bytes) {
    if (auto* sha256 = std::get_if<sha256_ctx>(&private_->state)) sha256_update(sha256, bytes.size(), octets(bytes));
    else sha512_update(&std::get<sha512_ctx>(private_->state), bytes.size(), octets(bytes));
}

std::string Digest::hex() {
    if (auto* sha256 = std::get_if<sha256_ctx>(&private_->state)) {
        std::array<std::uint8_t, SHA256_DIGEST_SIZE> sum{};
        sha256_digest(sha256, sum.size(), sum.data());
        return hex_of(sum);
    }
    std::array<std::uint8_t, SHA512_DIGEST_SIZE> sum{};
    sha512_digest(&std::get<sha512_ctx>(private_->state), sum.size(), sum.data());
    return hex_of(sum);
}

std::string sha256_hex(std::string_view bytes) {
    Digest digest(DigestKind::Sha256);
    digest.add(bytes);
    return digest.hex();
}

}  // namespace wayfolio::input
