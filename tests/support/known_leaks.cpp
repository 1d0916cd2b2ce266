/// Read by the leak sanitizer, in sanitized builds only. Fontconfig keeps what it made of a private configuration until the process ends.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig\n"; }

/// What a command writes on standard error is tested; the list of known leaks is none of it.
extern "C" const char* __lsan_default_options();
extern "C" const char* __lsan_default_options() { return "print_suppressions=0"; }
