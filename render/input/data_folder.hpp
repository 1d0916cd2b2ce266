#pragma once
#include <filesystem>

namespace wayfolio::input {

/// The folder that came with this library: `layouts/` and `fonts/` lie in it. Asked of the file that this code is in, which is the
/// shared library, or the program that the static one is linked into: where that lies in the build tree, the build's folder; else
/// share/wayfolio of the prefix that it stands in; else the folder that the library was installed into. It need not be there:
/// who reads from it says so. Never taken from the environment or the working folder. A program that brings its own copy gives
/// that to `layouts::read_layout` and `text::Shaper` instead. May be called on any thread.
std::filesystem::path data_folder();

}  // namespace wayfolio::input
