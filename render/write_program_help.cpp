#include <dlfcn.h>
#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

/// Run while the program is built: writes what the module of all verbs answers to --help as C++ into a file, for the program in front.
/// write_program_help MODULE FILE
int main(int count, char** words) {
    if (count != 3) return 2;
    void* const module = dlopen(words[1], RTLD_NOW | RTLD_LOCAL);
    void* const run_command = module == nullptr ? nullptr : dlsym(module, "wayfolio_run_command");
    if (run_command == nullptr) return std::fprintf(stderr, "%s\n", dlerror()), 1;
    const int file = open(words[2], O_WRONLY | O_CREAT | O_TRUNC, 0666);
    if (file < 0 || dup2(file, STDOUT_FILENO) < 0) return std::perror(words[2]), 1;
    std::fputs("// Written by write_program_help.\n#include <string_view>\n\n", stdout);
    std::fputs("inline constexpr std::string_view program_help = R\"help(", stdout);
    std::fflush(stdout);  // the module writes into the same file, not through this stream
    char program[] = "wayfolio", help[] = "--help";
    char* asked[] = {program, help, nullptr};
    const int code = reinterpret_cast<int (*)(int, char**)>(run_command)(2, asked);
    std::fputs(")help\";\n", stdout);
    return std::fclose(stdout) == 0 ? code : 1;
}
