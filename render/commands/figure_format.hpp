#pragma once
#include "produce/produce.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::commands {

/// "svg", "pdf" or "png".
std::optional<produce::FigureFormat> format_called(std::string_view name);

/// `format` (what --format says), else by the ending of the output's name. @throws UsageError where neither says
produce::FigureFormat figure_format(const std::string& output, const std::string& format);

}  // namespace wayfolio::commands
