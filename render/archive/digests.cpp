#include "archive/digests.hpp"

#include "input/problem.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <stdexcept>

namespace wayfolio::archive {
namespace {

class Hash {
public:
    explicit Hash(const EVP_MD* algorithm) : context_(EVP_MD_CTX_new()) { require(EVP_DigestInit_ex(context_.get(), algorithm, nullptr)); }
    void add(std::string_view bytes) { require(EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size())); }
    std::string hex() {
        std::array<unsigned char, EVP_MAX_MD_SIZE> sum{};
        unsigned int length = 0;
        require(EVP_DigestFinal_ex(context_.get(), sum.data(), &length));
        return fmt::format("{:02x}", fmt::join(sum.begin(), sum.begin() + length, ""));
    }

private:
    static void require(int done) {
        if (done != 1) throw std::runtime_error("a digest could not be computed");
    }
    struct Free {
        void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
    };
    std::unique_ptr<EVP_MD_CTX, Free> context_;
};

}  // namespace

Digests digests_of(std::string_view bytes) {
    Hash sha256(EVP_sha256()), sha512(EVP_sha512());
    sha256.add(bytes);
    sha512.add(bytes);
    return {sha256.hex(), sha512.hex()};
}

Digests digests_of_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw input::InputMissing(path.string(), "cannot be opened");
    Hash sha256(EVP_sha256()), sha512(EVP_sha512());
    std::array<char, 65536> piece{};
    while (file) {
        file.read(piece.data(), piece.size());
        const std::string_view got(piece.data(), static_cast<std::size_t>(file.gcount()));
        sha256.add(got);
        sha512.add(got);
    }
    if (!file.eof()) throw input::InputMissing(path.string(), "cannot be read");
    return {sha256.hex(), sha512.hex()};
}

}  // namespace wayfolio::archive
