#pragma once
#include "service/answers/routes.hpp"

/// What several routes have in common, and the tables that routes() joins.
namespace wayfolio::service::route_parts {

inline constexpr std::string_view json = "application/json", pdf = "application/pdf", svg = "image/svg+xml", zip = "application/zip",
                                  tar = "application/x-tar";

inline const QueryOption layout{
    "layout", "a shipped layout; a layout of one's own travels as the part \"layout\"", {}, "report", "summary"},
    paper{"paper", "the size of the paper; where it is not said, the layout's own", {"A4", "Letter"}, "", "Letter"},
    format_of_record{"format", "what the record is packed as", {"zip", "tar"}, "zip", "tar"},
    axis{"axis", "the axis that moves", {}, "", "X"};

std::vector<Route> routes_of_records();
std::vector<Route> routes_of_batches();

}  // namespace wayfolio::service::route_parts
