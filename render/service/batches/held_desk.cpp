#include "service/batches/held_desk.hpp"

#include "service/batches/desk.hpp"
#include "service/serve.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace wayfolio::service {

// Trap: SQLite keeps what it knows of open files in the process, and a worker that is forked meanwhile cannot open them: the desk is open
// in here alone. Its lock lies beside it, for SQLite's own locks would be lost with a descriptor of ours.
HeldDesk::HeldDesk(const std::filesystem::path& file) {
    Desk desk(file);  // first, so that nothing is made beside what is no file of ours
    const std::string path = file.string() + "-lock";
    constexpr int owner_alone = 0600;
    lock_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, owner_alone);
    if (lock_ < 0) throw CannotServe(fmt::format("{}: {}", path, std::strerror(errno)));
    if (::flock(lock_, LOCK_EX | LOCK_NB) != 0) {
        ::close(lock_);
        throw CannotServe(fmt::format("{}: another service draws these batches", file.string()));
    }
    desk.begin_again();
}

HeldDesk::~HeldDesk() { ::close(lock_); }

}  // namespace wayfolio::service
