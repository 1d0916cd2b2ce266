#include "commands/process.hpp"

#include "database/database.hpp"
#include "front/failure.hpp"
#include "service/serve.hpp"
#include "text/shaper.hpp"

#include <CLI/Error.hpp>
#include <fmt/core.h>

#include <utility>

namespace wayfolio::commands {

using front::fail;

ExitCode explain_failure(std::exception_ptr failure, FaultsAs faults, const Console& console) {
    try {
        std::rethrow_exception(failure);
    } catch (const CLI::ParseError& error) {
        return front::fail_usage(console, error.what());
    } catch (const database::DatabaseFailed& failed) {
        return fail(console, ExitCode::InputMissing,
                    fmt::format("the index of the catalogue cannot be used: {}; run without --as-indexed, or delete it", failed.what()));
    } catch (const service::CannotServe& failed) {
        return fail(console, ExitCode::CannotCreate, failed.what());
    } catch (const text::GlyphMissing& missing) {
        return fail(console, ExitCode::BadInput, missing.what());
    } catch (const text::FontFailed& failed) {
        return fail(console, ExitCode::OurFault, failed.what());
    } catch (...) {
        return front::explain_failure(std::move(failure), faults, console);
    }
}

}  // namespace wayfolio::commands
