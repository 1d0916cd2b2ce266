#pragma once
#include <filesystem>

namespace wayfolio::service {

struct TlsFiles {
    std::filesystem::path certificate;  ///< a chain in PEM, the service's own certificate first
    std::filesystem::path key;          ///< its private key in PEM, without a passphrase
    [[nodiscard]] bool given() const { return !certificate.empty(); }
};

}  // namespace wayfolio::service
