#include "report/words/changes/document_places.hpp"

#include "input/json/json.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace wayfolio::report {
namespace {

using document::Document;
using input::JsonKind;
using input::Value;

/// What a key says of the unit behind it.
struct UnitOfKey {
    std::string_view ending, unit;
};
constexpr std::array units_of_keys{
    UnitOfKey{"_um_per_m_K", "µm/(m\u202fK)"}, UnitOfKey{"_um_per_m", "µm/m"}, UnitOfKey{"_urad", "µrad"}, UnitOfKey{"_arcsec", "″"},
    UnitOfKey{"_percent", "%"}, UnitOfKey{"_hPa", "hPa"}, UnitOfKey{"_min", "min"}, UnitOfKey{"_deg", "°"}, UnitOfKey{"_um", "µm"},
    UnitOfKey{"_nm", "nm"}, UnitOfKey{"_mm", "mm"}, UnitOfKey{"_ppm", "ppm"}, UnitOfKey{"_C", "°C"}, UnitOfKey{"_K", "K"}};

/// "half_width" -> "half width", "vacuum_wavelength_nm" -> "vacuum wavelength / nm"
std::string key_words(std::string_view key) {
    std::string unit;
    for (const UnitOfKey& known : units_of_keys)
        if (unit.empty() && key.ends_with(known.ending) && key.size() > known.ending.size()) {
            unit = known.unit;
            key.remove_suffix(known.ending.size());
        }
    std::string words(key == "contributors" ? "input quantities" : key == "tolerances" ? "limits" : key);
    std::ranges::replace(words, '_', ' ');
    return unit.empty() ? words : words + " / " + unit;
}

std::vector<std::string> steps_of(const std::string& pointer) {
    std::vector<std::string> steps;
    for (std::size_t from = 1; from <= pointer.size() && !pointer.empty();) {
        const std::size_t end = std::min(pointer.find('/', from), pointer.size());
        std::string step = pointer.substr(from, end - from);
        for (const auto& [written, meant] : {std::pair("~1", "/"), std::pair("~0", "~")})
            for (std::size_t at = step.find(written); at != std::string::npos; at = step.find(written, at + 1)) step.replace(at, 2, meant);
        steps.push_back(std::move(step));
        from = end + 1;
    }
    return steps;
}

std::optional<std::size_t> index_of(const std::string& step) {
    std::size_t index = 0;
    const auto [end, fault] = std::from_chars(step.data(), step.data() + step.size(), index);
    return fault == std::errc() && end == step.data() + step.size() ? std::optional(index) : std::nullopt;
}

template <class Thing>
const Thing* item(const std::vector<Thing>& all, std::size_t i) {
    return i < all.size() ? &all[i] : nullptr;
}

std::string quoted_name(const std::string& kind, const std::string& name) { return name.empty() ? kind : kind + " “" + name + "”"; }

std::string tolerance_words(const document::Tolerance& tolerance) {
    const std::string symbol = parameter_symbol(tolerance.parameter);
    std::string words = "limit for " + (symbol.empty() ? key_words(tolerance.parameter) : symbol);
    if (const auto way = direction_of(tolerance.parameter); way && !symbol.empty()) words += ", " + std::string(word(*way)) + " approach";
    return words;
}

std::string instrument_words(const document::Instrument& instrument) {
    const std::string kind = instrument.kind.empty() ? "instrument" : key_words(instrument.kind);
    return instrument.serial.empty() ? kind : kind + ", serial " + instrument.serial;
}

/// What an item of a list is called, by the list that it is in; nothing where it has no name.
std::string item_words(const Document& document, const std::string& list, std::size_t i) {
    if (list == "series")
        if (const auto* series = item(document.series, i)) return series_name(*series);
    if (list == "instruments")
        if (const auto* instrument = item(document.instruments, i)) return instrument_words(*instrument);
    if (list == "contributors")
        if (const auto* one = item(document.uncertainty.contributors, i)) return quoted_name("input quantity", one->name);
    if (list == "squareness")
        if (const auto* one = item(document.squareness, i)) return uncapitalised(squareness_name(one->axes));
    if (list == "compensation")
        if (const auto* one = item(document.compensation, i)) return "compensation of " + one->axis;
    if (list == "axes" && document.machine)
        if (const auto* axis = item(document.machine->axes, i)) return "axis " + axis->name;
    if (list == "checks" && document.setup)
        if (const auto* check = item(document.setup->checks, i)) return quoted_name("set-up check", check->name);
    return "";
}

/// Lists whose items have names: their own word would say the same twice.
bool said_by_its_items(const std::string& list) {
    constexpr std::array lists{"series", "instruments", "contributors", "squareness", "compensation", "axes", "checks", "tolerances"};
    return std::ranges::find(lists, list) != lists.end();
}

std::string joined(const std::vector<std::string>& parts) {
    std::string words;
    for (const std::string& part : parts) words += (words.empty() ? "" : ": ") + part;
    return capitalised(words);
}

/// A word of the document's own lists, "guard-band-both-sides"; texts of its author have blanks or capitals.
bool is_key_word(std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
    });
}

std::string text_words(const Subject& side, std::string_view text) {
    if (const auto* series = document::find_series(side.document, std::string(text))) return series_name(*series);
    if (const auto unit = units::deviation_unit(std::string(text))) return std::string(unit->symbol);
    if (!is_key_word(text)) return std::string(text);
    const bool has_letter = std::ranges::any_of(text, [](char c) { return c >= 'a' && c <= 'z'; });
    std::string words(text);
    if (has_letter) std::ranges::replace(words, '-', ' ');
    std::ranges::replace(words, '_', ' ');
    return words;
}

/// A text in full; of a list no more entries than about so many letters have room for, and how many more there are: the documents
/// themselves are inside the file.
std::string words_of_value(const Subject& side, const Value& value, std::size_t most_letters) {
    std::string words;
    switch (value.kind) {
        case JsonKind::Null: return "none";
        case JsonKind::Boolean: return value.boolean ? "yes" : "no";
        case JsonKind::Number:
            words = std::string(value.text);
            return words.starts_with('-') ? std::string(units::minus_sign) + words.substr(1) : words;
        case JsonKind::String: return text_words(side, value.text);
        case JsonKind::Array:
        case JsonKind::Object:
            for (std::size_t i = 0; i < value.items.size(); ++i) {
                const Value& one = value.items[i];
                if (!words.empty()) words += words.ends_with('.') ? " " : ", ";
                if (words.size() >= most_letters) return words + "and " + std::to_string(value.items.size() - i) + " more";
                if (value.kind == JsonKind::Object) words += key_words(one.key) + " ";
                words += words_of_value(side, one, most_letters - std::min(most_letters, words.size()));
            }
    }
    return words.empty() ? "empty" : words;
}

}  // namespace

std::string place_words(const Subject& was, const Subject& now, const compare::Change& change) {
    const Document& document = change.now.empty() ? was.document : now.document;
    const std::vector<std::string> steps = steps_of(change.pointer);
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto index = index_of(steps[i]);
        if (!index) {
            const bool named_below = i + 1 < steps.size() && said_by_its_items(steps[i]) && index_of(steps[i + 1]);
            if (!named_below) parts.push_back(key_words(steps[i]));
            continue;
        }
        const std::string& list = i == 0 ? steps[i] : steps[i - 1];
        const auto* series = i >= 2 && steps[0] == "series" ? item(document.series, index_of(steps[1]).value_or(0)) : nullptr;
        const auto* tolerance = series && list == "tolerances" ? item(series->tolerances, *index) : nullptr;
        const std::string named = tolerance ? tolerance_words(*tolerance) : item_words(document, list, *index);
        parts.push_back(named.empty() ? "no. " + std::to_string(*index + 1) : named);
        if (tolerance && i + 1 < steps.size() && steps[i + 1] == "limit") ++i;  // said already
    }
    return parts.empty() ? "The whole document" : joined(parts);
}

std::string value_words(const Subject& side, const std::string& json) {
    if (json.empty()) return "not entered";
    constexpr std::string_view begin_json = "{[\"-0123456789tfn";
    if (begin_json.find(json.front()) == std::string_view::npos) return json;
    constexpr std::size_t most_letters = 200;
    return words_of_value(side, input::read_json(json, "value").root, most_letters);
}

}  // namespace wayfolio::report
