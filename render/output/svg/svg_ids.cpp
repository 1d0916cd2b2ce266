#include "output/svg/svg_ids.hpp"

#include <array>
#include <map>
#include <string_view>

namespace wayfolio::output {

namespace {

/// Gives names by order of appearance: surface11 -> surface0, clip1 -> clip0, glyph0-1 stays (Cairo counts glyphs within the
/// file).
class Names {
public:
    explicit Names(const std::string& prefix) : prefix_(prefix) {}

    std::string steady(const std::string& id) {
        const auto digits = id.find_first_of("0123456789");
        const std::string kind = id.substr(0, digits);
        if (kind == "glyph") return prefix_ + id;
        const auto [known, is_new] = known_.try_emplace(id, "");
        if (is_new) known->second = prefix_ + kind + std::to_string(counts_[kind]++);
        return known->second;
    }

private:
    const std::string& prefix_;
    std::map<std::string, std::string> known_;
    std::map<std::string, int> counts_;
};

struct Mark {
    std::string_view before;
    char after;
};
constexpr std::array marks{Mark{" id=\"", '"'}, Mark{"href=\"#", '"'}, Mark{"url(#", ')'}};

}  // namespace

std::string with_steady_ids(const std::string& svg, const std::string& prefix) {
    Names names(prefix);
    std::string steady;
    std::size_t at = 0;
    while (at < svg.size()) {
        std::size_t nearest = std::string::npos;
        const Mark* mark = nullptr;
        for (const Mark& one : marks)
            if (const std::size_t found = svg.find(one.before, at); found < nearest) nearest = found, mark = &one;
        if (!mark) break;
        const std::size_t start = nearest + mark->before.size(), end = svg.find(mark->after, start);
        steady += svg.substr(at, start - at) + names.steady(svg.substr(start, end - start));
        at = end;
    }
    return steady + svg.substr(at);
}

}  // namespace wayfolio::output
