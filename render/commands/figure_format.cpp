#include "commands/figure_format.hpp"

#include "commands/command.hpp"

#include <fmt/core.h>

#include <filesystem>

namespace wayfolio::commands {

using produce::FigureFormat;

std::optional<FigureFormat> format_called(std::string_view name) {
    if (name == "svg") return FigureFormat::Svg;
    if (name == "pdf") return FigureFormat::Pdf;
    if (name == "png") return FigureFormat::Png;
    return std::nullopt;
}

FigureFormat figure_format(const std::string& output, const std::string& format) {
    const std::string ending = std::filesystem::path(output).extension().string();
    const std::string name = !format.empty() ? format : ending.empty() ? "" : ending.substr(1);
    if (const auto known = format_called(name)) return *known;
    throw UsageError(
        fmt::format("output {}: unknown format; end its name with .svg, .pdf or .png, or give --format", output));
}

}  // namespace wayfolio::commands
