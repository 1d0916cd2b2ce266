#pragma once
#include <memory>
#include <string>
#include <string_view>

namespace wayfolio::input {

enum class DigestKind { Sha256, Sha512 };

/// A digest (FIPS 180-4) of bytes that come in pieces.
class Digest {
public:
    explicit Digest(DigestKind kind);
    ~Digest();
    Digest(Digest&&) noexcept;
    Digest& operator=(Digest&&) noexcept;

    void add(std::string_view bytes);
    /// Of all that was added, in lower-case hexadecimal digits; then it begins anew.
    std::string hex();

private:
    struct Private;
    std::unique_ptr<Private> private_;
};

/// SHA-256 (FIPS 180-4) of the bytes, as 64 lower-case hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}  // namespace wayfolio::input
