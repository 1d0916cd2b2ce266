#include "service/answers/given.hpp"

#include "document/read_document.hpp"
#include "input/json/json.hpp"
#include "service/answers/problem.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>

namespace wayfolio::service {

const std::string& part_in(const Call& call, const std::string& name) {
    const auto part = call.files.parts.find(name);
    if (part == call.files.parts.end()) throw Refused(problems::malformed, fmt::format("there is no part called {}", input::quoted(name)));
    return part->second;
}

const std::string& file_in(const std::map<std::string, std::string>& files, const std::string& name) {
    const auto file = files.find(name);
    if (file == files.end()) throw input::InputMissing(name, "no part with this filename came with the request");
    return file->second;
}

document::Document document_in(const Call& call, const std::string& part) {
    return document::read_document(part_in(call, part), part,
                                   [&](const std::string& name) { return file_in(call.files.side_files, name); });
}

layouts::Layout layout_in(const Call& call) {
    static const std::string of_layout;
    const auto paper = call.options.find("paper");
    const std::string& size = paper == call.options.end() ? of_layout : paper->second;
    if (const auto own = call.files.parts.find("layout"); own != call.files.parts.end())
        return layouts::read_layout_bytes(own->second, "layout", size);
    // A name only: never a path, which read_layout() would open.
    const auto shipped = layouts::shipped_layouts();
    const std::string& name = call.option("layout");
    if (std::ranges::find(shipped, name) == shipped.end())
        throw Refused(problems::unknown_option,
                      fmt::format("found the layout {}; expected one of {}", input::quoted(name), fmt::join(shipped, ", ")));
    return layouts::read_layout(name, size);
}

std::size_t number_in(const Call& call, std::string_view option, std::size_t most) {
    const std::string& text = call.option(option);
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || number == 0 || number > most)
        throw Refused(problems::unknown_option,
                      fmt::format("found {} for {}; expected a whole number from 1 to {}", input::quoted(text), option, most));
    return number;
}

const evaluate::SeriesEvaluation& series_in(const Call& call, const evaluate::Evaluation& evaluation) {
    if (const auto* found = evaluate::find_series(evaluation, call.option("series"))) return *found;
    std::vector<std::string> known;
    for (const auto& series : evaluation.series) known.push_back(series.id);
    throw Refused(problems::nothing_there,
                  fmt::format("no series is called {}; the document has {}", input::quoted(call.option("series")), fmt::join(known, ", ")));
}

}  // namespace wayfolio::service
