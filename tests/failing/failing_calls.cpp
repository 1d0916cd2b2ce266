// Loaded before the C library (LD_PRELOAD): lets the n-th call of one kind fail, as a full disk, a broken one or too little memory would.
//   WAYFOLIO_FAIL       open, write, rename, sync or memory
//   WAYFOLIO_FAIL_AT    which call fails, from 1
//   WAYFOLIO_FAIL_MARK  a file that is made when one has failed
// Standard error is left alone, for what is said there is looked at; memory means blocks of at least `large`.
#ifndef _GNU_SOURCE
#define _GNU_SOURCE
#endif
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>

extern "C" void* __libc_malloc(size_t size);
extern "C" void* __libc_calloc(size_t count, size_t size);
extern "C" void* __libc_realloc(void* block, size_t size);

namespace {

constexpr size_t large = 128 * 1024;
std::atomic<long> calls{0};

/// Whether this call is the one. Allocates nothing: malloc asks, too.
bool fails(const char* kind) {
    const char* wanted = std::getenv("WAYFOLIO_FAIL");
    const char* at = std::getenv("WAYFOLIO_FAIL_AT");
    if (!wanted || !at || std::strcmp(wanted, kind) != 0) return false;
    if (++calls != std::strtol(at, nullptr, 10)) return false;
    if (const char* mark = std::getenv("WAYFOLIO_FAIL_MARK")) {
        const long file = syscall(SYS_openat, AT_FDCWD, mark, O_CREAT | O_WRONLY, 0600);
        if (file >= 0) syscall(SYS_close, file);
    }
    return true;
}

template <typename Function>
Function next(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name));
}

int failed(int reason) {
    errno = reason;
    return -1;
}

}  // namespace

extern "C" {

int open(const char* path, int flags, ...) {
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = va_arg(rest, mode_t);
    va_end(rest);
    static const auto real = next<int (*)(const char*, int, ...)>("open");
    return fails("open") ? failed(EIO) : real(path, flags, mode);
}

int open64(const char* path, int flags, ...) {
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = va_arg(rest, mode_t);
    va_end(rest);
    static const auto real = next<int (*)(const char*, int, ...)>("open64");
    return fails("open") ? failed(EIO) : real(path, flags, mode);
}

int openat(int folder, const char* path, int flags, ...) {
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = va_arg(rest, mode_t);
    va_end(rest);
    static const auto real = next<int (*)(int, const char*, int, ...)>("openat");
    return fails("open") ? failed(EIO) : real(folder, path, flags, mode);
}

FILE* fopen(const char* path, const char* mode) {
    static const auto real = next<FILE* (*)(const char*, const char*)>("fopen");
    if (!fails("open")) return real(path, mode);
    errno = EIO;
    return nullptr;
}

FILE* fopen64(const char* path, const char* mode) {
    static const auto real = next<FILE* (*)(const char*, const char*)>("fopen64");
    if (!fails("open")) return real(path, mode);
    errno = EIO;
    return nullptr;
}

ssize_t write(int file, const void* bytes, size_t size) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t)>("write");
    return file != STDERR_FILENO && fails("write") ? failed(ENOSPC) : real(file, bytes, size);
}

ssize_t writev(int file, const iovec* parts, int count) {
    static const auto real = next<ssize_t (*)(int, const iovec*, int)>("writev");
    return file != STDERR_FILENO && fails("write") ? failed(ENOSPC) : real(file, parts, count);
}

ssize_t pwrite(int file, const void* bytes, size_t size, off_t at) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t, off_t)>("pwrite");
    return fails("write") ? failed(ENOSPC) : real(file, bytes, size, at);
}

ssize_t pwrite64(int file, const void* bytes, size_t size, off64_t at) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
    return fails("write") ? failed(ENOSPC) : real(file, bytes, size, at);
}

int rename(const char* from, const char* to) {
    static const auto real = next<int (*)(const char*, const char*)>("rename");
    return fails("rename") ? failed(EIO) : real(from, to);
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
    static const auto real = next<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
    return fails("rename") ? failed(EIO) : real(from_folder, from, to_folder, to, flags);
}

int link(const char* from, const char* to) {
    static const auto real = next<int (*)(const char*, const char*)>("link");
    return fails("rename") ? failed(EIO) : real(from, to);
}

int mkdir(const char* path, mode_t mode) {
    static const auto real = next<int (*)(const char*, mode_t)>("mkdir");
    return fails("rename") ? failed(ENOSPC) : real(path, mode);
}

int fsync(int file) {
    static const auto real = next<int (*)(int)>("fsync");
    return fails("sync") ? failed(EIO) : real(file);
}

int fdatasync(int file) {
    static const auto real = next<int (*)(int)>("fdatasync");
    return fails("sync") ? failed(EIO) : real(file);
}

void* malloc(size_t size) {
    if (size < large || !fails("memory")) return __libc_malloc(size);
    errno = ENOMEM;
    return nullptr;
}

void* calloc(size_t count, size_t size) {
    if (count * size < large || !fails("memory")) return __libc_calloc(count, size);
    errno = ENOMEM;
    return nullptr;
}

void* realloc(void* block, size_t size) {
    if (size < large || !fails("memory")) return __libc_realloc(block, size);
    errno = ENOMEM;
    return nullptr;
}

}  // extern "C"
