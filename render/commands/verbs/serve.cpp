#include "service/serve.hpp"
#include "archive/record/record.hpp"
#include "commands/command.hpp"
#include "commands/outputs.hpp"
#include "files/write_file.hpp"
#include "input/data_folder.hpp"
#include "input/read_file.hpp"
#include "service/answers/routes.hpp"

#include <fmt/format.h>
#include <CLI/App.hpp>

#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <memory>
#include <optional>

namespace wayfolio::commands {

namespace {

struct ServeOptions {
    std::string listen = "127.0.0.1:8480", socket, token_file, records, index, batches, samples, certificate, key;
    std::size_t workers = 2;
    int deadline_s = 30;
    bool describe = false;
};

/// "127.0.0.1:8480", "[::1]:8480". @throws UsageError
void set_place(const std::string& listen, service::Settings& settings) {
    const std::size_t colon = listen.rfind(':');
    unsigned port = 0;
    const char* const end = listen.data() + listen.size();
    const bool read =
        colon != std::string::npos && std::from_chars(listen.data() + colon + 1, end, port).ptr == end && colon + 1 < listen.size();
    if (!read || port > 0xffff)
        throw UsageError(fmt::format("--listen {}: expected ADDRESS:PORT, as 127.0.0.1:8480 or [::1]:8480", listen));
    std::string address = listen.substr(0, colon);
    if (address.starts_with('[') && address.ends_with(']')) address = address.substr(1, address.size() - 2);
    settings.address = address;
    settings.port = static_cast<std::uint16_t>(port);
}

std::string token_in(const std::string& file) {
    constexpr std::size_t least = 16;
    std::string token = input::read_file(file);
    while (!token.empty() && (token.back() == '\n' || token.back() == '\r')) token.pop_back();
    if (token.size() < least) throw UsageError(fmt::format("{}: a token of at least {} letters is wanted, on one line", file, least));
    return token;
}

/// The one socket that a service manager hands over (sd_listen_fds(3)); -1 where there is none, or where it is meant for another process.
int inherited_socket() {
    constexpr int first = 3;
    const char *const process = std::getenv("LISTEN_PID"), *const count = std::getenv("LISTEN_FDS");
    const bool ours = process != nullptr && count != nullptr && process == std::to_string(::getpid());
    if (ours && std::string_view(count) != "1") throw UsageError(fmt::format("{} sockets were handed over; one is served", count));
    return ours ? first : -1;
}

/// An index that lasts as long as the service: several may keep one folder of records, and no two of them share one.
class OwnIndex {
public:
    OwnIndex() {
        std::string name = (std::filesystem::temp_directory_path() / "wayfolio-index-XXXXXX").string();
        if (::mkdtemp(name.data()) == nullptr) throw service::CannotServe(name + ": " + std::strerror(errno));
        folder_ = name;
    }
    ~OwnIndex() {
        std::error_code none;
        std::filesystem::remove_all(folder_, none);
    }
    OwnIndex(const OwnIndex&) = delete;
    OwnIndex& operator=(const OwnIndex&) = delete;
    [[nodiscard]] std::filesystem::path file() const { return folder_ / archive::catalogue_index; }

private:
    std::filesystem::path folder_;
};

void require_records(const ServeOptions& options) {
    if (options.records.empty() && !options.index.empty()) throw UsageError("--index goes with --records");
    if (options.records.empty()) return;
    if (!std::filesystem::is_directory(options.records) || ::access(options.records.c_str(), R_OK | W_OK | X_OK) != 0)
        throw service::CannotServe(fmt::format("{}: is no folder that can be read and written", options.records));
    if (!options.index.empty()) require_index_place(options.index);
}

void require_samples(const std::string& folder) {
    if (!folder.empty() && (!std::filesystem::is_directory(folder) || ::access(folder.c_str(), R_OK | X_OK) != 0))
        throw service::CannotServe(fmt::format("{}: is no folder that can be read", folder));
}

ExitCode serve(const ServeOptions& options) {
    if (options.describe) {
        files::write_file("-", service::open_api());
        return ExitCode::Fine;
    }
    service::Settings settings;
    set_place(options.listen, settings);
    settings.socket = options.socket;
    if (!options.token_file.empty()) settings.token = token_in(options.token_file);
    settings.limits.workers = options.workers;
    settings.limits.waiting = 4 * options.workers;
    settings.limits.deadline = std::chrono::seconds(options.deadline_s);
    require_records(options);
    if (options.certificate.empty() != options.key.empty()) throw UsageError("--certificate and --key go together");
    if (!options.certificate.empty() && !options.socket.empty())
        throw UsageError("on a Unix socket no TLS is spoken: leave out --certificate");
    settings.tls = {options.certificate, options.key};
    std::optional<OwnIndex> own_index;
    if (!options.records.empty() && options.index.empty()) own_index.emplace();
    settings.records = options.records;
    settings.index = own_index ? own_index->file() : std::filesystem::path(options.index);
    settings.batches = options.batches;
    require_samples(options.samples);
    settings.samples = options.samples;
    settings.inherited = inherited_socket();
    service::serve(settings, text::Shaper(input::data_folder() / "fonts"));
    return ExitCode::Fine;
}

}  // namespace

void add_serve(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<ServeOptions>();
    CLI::App* verb = program.add_subcommand("serve", "answer over HTTP what the commands answer: check, evaluation, report, figures");
    verb->footer("wayfolio serve --listen 127.0.0.1:8480");
    verb->add_option("--listen", options->listen, "address and port (default: 127.0.0.1:8480; port 0: any that is free)")
        ->type_name("ADDRESS:PORT");
    verb->add_option("--socket", options->socket, "a Unix socket in place of an address")->type_name("PATH");
    verb->add_option("--token-file", options->token_file, "a file with the token that clients have to show; other machines need one")
        ->type_name("FILE");
    verb->add_option("--certificate", options->certificate, "speak TLS with this certificate and those above it (PEM)")->type_name("FILE");
    verb->add_option("--key", options->key, "its private key (PEM)")->type_name("FILE");
    verb->add_option("--records", options->records, "a folder of records that the service keeps: files, lists, compares and verifies them")
        ->type_name("DIR");
    verb->add_option("--index", options->index, "file of this service's own index over them (default: one that ends with the service)")
        ->type_name("FILE");
    verb->add_option("--batches", options->batches, "a file that keeps batches and their results; of this service alone")
        ->type_name("FILE");
    verb->add_option("--samples", options->samples, "a folder of result documents that the page offers to open")->type_name("DIR");
    verb->add_option("--workers", options->workers, "jobs at a time, each in a process of its own (default: 2); four times as many wait")
        ->type_name("N")
        ->check(CLI::Range(1, 64));
    verb->add_option("--deadline", options->deadline_s, "seconds that a job may take, its waiting included (default: 30)")
        ->type_name("SECONDS")
        ->check(CLI::Range(1, 3600));
    verb->add_flag("--describe", options->describe, "print the description of all routes (OpenAPI 3.1) and end");
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return serve(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
