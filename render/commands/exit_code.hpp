#pragma once

namespace wayfolio::commands {

/// Exit codes of the program; 64 and up follow sysexits.h. The texts in exit_codes_text() explain them to users.
enum class ExitCode {
    Fine = 0,
    Failed = 1,
    Usage = 2,
    BadInput = 65,
    InputMissing = 66,
    OurFault = 70,
    CannotCreate = 73,
    OutputError = 74,
};

}  // namespace wayfolio::commands
