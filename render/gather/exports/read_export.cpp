#include "gather/exports/read_export.hpp"

#include <algorithm>

namespace wayfolio::gather {

bool is_sheet_name(std::string_view name) {
    const auto ends = [&](std::string_view ending) {
        return name.size() > ending.size() && std::ranges::equal(name.substr(name.size() - ending.size()), ending, [](char a, char b) {
                   return a == b || (a >= 'A' && a <= 'Z' && a - 'A' + 'a' == b);
               });
    };
    return ends(".xlsx") || ends(".ods");
}

std::string read_rows(const ExportFile& file, const RowsOf& rows, ExportFaults& faults, const RowSink& sink) {
    return read_text_rows(file, rows.dialect, faults, sink);
}

}  // namespace wayfolio::gather
