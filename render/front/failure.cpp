#include "front/failure.hpp"

#include "evaluate/review/site/findings.hpp"
#include "files/output_failed.hpp"
#include "front/process.hpp"
#include "input/problem.hpp"

#include <fmt/core.h>

#include <new>
#include <system_error>

namespace wayfolio::front {

namespace {

ExitCode list_faults(const input::InputRejected& rejected, FaultsAs as, const Console& console) {
    const auto& faults = rejected.problems();
    if (as != FaultsAs::Messages) {
        const evaluate::Findings found{.file = faults.empty() ? std::string() : faults.front().file,
                                       .faults = faults, .warnings = {}, .lacking = {}, .supports = {}};
        // Not files::write_file: nothing may throw out of the program's only catch.
        if (print(as == FaultsAs::Json ? evaluate::findings_json(found) : evaluate::findings_text(found))) return ExitCode::BadInput;
        return fail(console, ExitCode::OutputError, "standard output: cannot be written");
    }
    for (const input::Problem& fault : faults) tell(input::to_text(fault));
    const bool capped = faults.size() >= input::InputRejected::cap;
    return fail(console, ExitCode::BadInput,
                fmt::format("{} {} in the input{}; nothing was written", faults.size(), faults.size() == 1 ? "fault" : "faults",
                            capped ? " (more are not listed)" : ""));
}

}  // namespace

ExitCode fail(const Console& console, ExitCode code, std::string_view text) {
    tell_of(console, Tone::Error, "wayfolio:", text);
    return code;
}

ExitCode fail_usage(const Console& console, std::string_view text) {
    fail(console, ExitCode::Usage, text);
    tell("wayfolio --help explains the commands.");
    return ExitCode::Usage;
}

ExitCode explain_failure(std::exception_ptr failure, FaultsAs faults, const Console& console) {
    try {
        std::rethrow_exception(std::move(failure));
    } catch (const UsageError& error) {
        return fail_usage(console, error.what());
    } catch (const input::InputRejected& rejected) {
        return list_faults(rejected, faults, console);
    } catch (const input::InputMissing& missing) {
        return fail(console, ExitCode::InputMissing, missing.what());
    } catch (const files::OutputFailed& failed) {
        return fail(console, failed.cannot_create() ? ExitCode::CannotCreate : ExitCode::OutputError, failed.what());
    } catch (const std::bad_alloc&) {
        return out_of_memory();
    } catch (const std::system_error& error) {  // of threads and of folders
        const bool no_thread = error.code() == std::errc::resource_unavailable_try_again;
        return no_thread ? out_of_memory() : fail(console, ExitCode::OutputError, error.what());
    } catch (const std::exception& error) {
        return fail(console, ExitCode::OurFault, fmt::format("a fault of this program, please report it: {}", error.what()));
    }
}

}  // namespace wayfolio::front
