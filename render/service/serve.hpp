#pragma once
#include "service/tls_files.hpp"
#include "service/limits.hpp"
#include "text/shaper.hpp"

#include <cstdint>
#include <exception>
#include <filesystem>
#include <functional>
#include <string>

/// The service: HTTP/1.1 on Boost.Beast, one thread that talks, workers in processes of their own that read and draw.
namespace wayfolio::service {

struct Settings {
    std::string address = "127.0.0.1";  ///< an IP address
    std::uint16_t port = 8480;          ///< 0: any that is free; the log says which
    std::filesystem::path socket;       ///< a Unix socket in place of address and port
    int inherited = -1;                 ///< a listening socket that whoever started this process has opened, in place of both
    TlsFiles tls;                       ///< of a service that speaks TLS itself; empty: another does, or nobody
    std::string token;                  ///< what a client has to show; "" only where nobody else can reach the service
    std::filesystem::path samples;    ///< a folder of result documents that the page offers to open; "" for none
    std::filesystem::path previewed;  ///< a result document that the page shows as it stands on the disk; "" for none
    std::function<void(const std::string& address)> opened;  ///< told where it is reached; empty: the log says so, and of each request
    std::filesystem::path records;  ///< a folder of records that are kept; "" keeps none
    std::filesystem::path index;    ///< of this service alone, over those records
    std::filesystem::path batches;  ///< a file for batches and their results, of this service alone; "" takes none
    Limits limits;
};

/// The service cannot be opened where it should be.
class CannotServe : public std::exception {
public:
    explicit CannotServe(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::string text_;
};

/// Serves until SIGTERM or SIGINT; then takes no more, ends what is at work, and returns. To be called on the only thread of the process.
/// @throws CannotServe, also where other machines would reach it without a token
void serve(const Settings& settings, const text::Shaper& shaper);

}  // namespace wayfolio::service
