#include "archive/verify/verify.hpp"
#include "commands/inputs.hpp"
#include "input/read_file.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <memory>

namespace wayfolio::commands {

namespace {

struct VerifyOptions {
    std::string kept, against;
    bool json = false;
};

/// CLI11 asks for what is wrong with a value; "" if nothing is. Fewer digits than a foot shows would prove little.
std::string fault_of_fingerprint(const std::string& given) {
    constexpr std::size_t least = 16, most = 64;
    const std::string_view digits = given.starts_with("sha256:") ? std::string_view(given).substr(7) : std::string_view(given);
    const bool hexadecimal = digits.find_first_not_of("0123456789abcdefABCDEF") == std::string_view::npos;
    if (hexadecimal && digits.size() >= least && digits.size() <= most) return {};
    return fmt::format("\"{}\" is not a fingerprint: give {} to {} hexadecimal digits", given, least, most);
}

ExitCode verify(const VerifyOptions& options) {
    if (options.kept.empty()) throw UsageError("nothing to verify: name a PDF or a record");
    const text::Shaper shaper(input::data_folder() / "fonts");
    const std::filesystem::path folder_of = std::filesystem::path(options.kept).parent_path();
    const archive::VerifyRequest request{shaper, options.against, folder_of.empty() ? "." : folder_of};
    std::error_code none;
    const bool folder = std::filesystem::is_directory(options.kept, none);
    const archive::Verification verdict =
        folder ? archive::verify_record(options.kept, request) : archive::verify_pdf(input::read_file(options.kept), options.kept, request);
    write_output("-", options.json ? archive::verification_json(verdict) : archive::verification_text(verdict), {options.kept});
    return verdict.sound() ? ExitCode::Fine : ExitCode::Failed;
}

}  // namespace

void add_verify(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<VerifyOptions>();
    CLI::App* verb = program.add_subcommand("verify", "check that a PDF or record is unchanged; exit 1 if it is not");
    verb->footer("wayfolio verify K-2041.pdf --against 3f2a91c07b5d4e10");
    verb->add_option("PDF|DIR", options->kept, "a PDF that this program made, or a record");
    verb->add_option("--against", options->against, "compare with this fingerprint, kept separately (16 digits or more)")
        ->type_name("FINGERPRINT")
        ->check(fault_of_fingerprint);
    verb->add_flag("--json", options->json, "write JSON");
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return verify(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
