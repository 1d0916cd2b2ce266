#pragma once
#include "front/console.hpp"

#include <exception>
#include <functional>
#include <string>

namespace wayfolio::front {

/// Exit codes of the program; 64 and up follow sysexits.h. The help explains them to users (commands/help.cpp).
enum class ExitCode {
    Fine = 0,
    Failed = 1,
    Usage = 2,
    BadInput = 65,
    InputMissing = 66,
    OurFault = 70,
    OutOfMemory = 71,
    CannotCreate = 73,
    OutputError = 74,
    TryAgain = 75,
    Stopped = 143,  ///< by a signal, cleanly: 128 and the number of SIGTERM
};

/// How the faults of an input are shown: as messages on standard error, or as what the command was asked for.
enum class FaultsAs { Messages, Listing, Json };

/// What is run once the arguments are read.
struct Command {
    std::function<ExitCode(const Console&)> run;
    FaultsAs faults = FaultsAs::Messages;
};

/// The command line asks for what there is not, or too little.
class UsageError : public std::exception {
public:
    explicit UsageError(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::string text_;
};

}  // namespace wayfolio::front
