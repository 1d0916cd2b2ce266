#include "document/read/reading.hpp"

#include "document/parameter.hpp"

#include <array>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<Distribution>, 4> distributions{{{"normal", Distribution::Normal},
                                                           {"rectangular", Distribution::Rectangular},
                                                           {"triangular", Distribution::Triangular},
                                                           {"u-shaped", Distribution::UShaped}}};

/// What the program adds by itself and a contributor can take the place of.
std::optional<Influence> read_influence(ObjectReader& reader) {
    const Value* const member = reader.find("influence");
    if (member == nullptr) return std::nullopt;
    std::vector<std::string_view> words;
    for (const KnownInfluence& known : replaceable_influences()) words.push_back(known.word);
    const auto place = reader.place_of_word(*member, "an influence that the program counts by itself", words);
    if (!place) return std::nullopt;
    return replaceable_influences()[*place].influence;
}

using Form = Contributor::Form;
struct FormKey {
    std::string_view key;
    Form form;
};
constexpr std::array<FormKey, 3> forms{{{"standard", Form::Standard}, {"half_width", Form::HalfWidth}, {"expanded", Form::Expanded}}};

/// Exactly one of standard, half_width and expanded.
void read_value(ObjectReader& reader, Contributor& contributor) {
    int found = 0;
    for (const auto& [key, form] : forms) {
        const Value* const member = reader.find(key);
        if (member == nullptr) continue;
        if (++found > 1) reader.faults().add_key(*member, "only one of: standard, half_width, expanded");
        contributor.form = form;
        contributor.value = reader.number_of(*member, size).value_or(0);
    }
    if (found == 0 && reader.is_object()) reader.faults().add_missing(reader.value(), "standard", "one of: standard, half_width, expanded");
    contributor.coverage_factor = reader.number("coverage_factor", coverage_factor);
    const Value* const factor = reader.value().member("coverage_factor");
    const Value* const expanded = reader.value().member("expanded");
    if (expanded != nullptr && factor == nullptr)
        reader.faults().add_missing(reader.value(), "coverage_factor", "the coverage factor of the expanded uncertainty");
    if (expanded == nullptr && factor != nullptr)
        reader.faults().add_key(*factor, "a coverage factor only beside \"expanded\"");
}

Contributor read_contributor(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an input quantity");
    Contributor contributor;
    contributor.name = reader.required_text("name", "the input quantity's name");
    std::optional<Dimension> dimension;
    reader.require("applies_to", "the error symbols it applies to");
    const auto symbols = reader.array("applies_to", "an array of error symbols", CountLimits::applies_to);
    if (const Value* const member = value.member("applies_to"); member != nullptr && member->is(JsonKind::Array) && symbols.empty())
        reading.faults.add_wrong(*member, "at least one error symbol");
    for (const Value& item : symbols) {
        const auto symbol = symbol_of(item, reading);
        if (!symbol) continue;
        contributor.applies_to.push_back(symbol->text());
        const bool length =
            symbol->kind() == ErrorKind::Straightness || (symbol->kind() == ErrorKind::Positioning && !symbol->axis_is_rotary());
        const Dimension own = length ? Dimension::Length : Dimension::Angle;
        if (dimension && *dimension != own) reading.faults.add_wrong(item, "symbols of one kind: lengths or angles, not both");
        else dimension = own;
    }
    read_value(reader, contributor);
    if (const auto unit = read_contributor_unit(reader, "unit", dimension.value_or(Dimension::Length))) contributor.unit = unit->spelling;
    const bool half_width = contributor.form == Form::HalfWidth;
    contributor.distribution = reader.choice("distribution", "a distribution", distributions)
                                   .value_or(half_width ? Distribution::Rectangular : Distribution::Normal);
    contributor.degrees_of_freedom = reader.number("degrees_of_freedom", degrees_of_freedom);
    contributor.correlated = reader.text("correlated");
    contributor.influence = read_influence(reader);
    contributor.basis = reader.text("basis");
    reader.finish();
    return contributor;
}

std::optional<StatedUncertainty> read_stated_uncertainty(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a stated uncertainty");
    const Series* const series = read_series_reference(reader, "series", reading);
    const Value* const parameter = reader.require("parameter", "the name of a parameter");
    std::optional<std::size_t> known;
    std::optional<Dimension> dimension;
    if (series != nullptr && parameter != nullptr) {
        known = reader.place_of_word(*parameter, "a parameter of " + series->error.text(), parameter_names(series->error));
        dimension = parameter_dimension(series->error, parameter->text);
    }
    const auto expanded = reader.required_number("expanded", size);
    const auto unit = read_deviation_unit(reader, "unit", dimension);
    const double factor = reader.number("coverage_factor", coverage_factor).value_or(2);
    reader.finish();
    if (!known || !expanded || !unit) return std::nullopt;
    return StatedUncertainty{series->id, std::string(parameter->text), Deviation(*expanded, *unit), *unit, factor};
}

}  // namespace

void read_uncertainty(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "uncertainties");
    for (const Value& item : reader.array("contributors", "an array of input quantities", CountLimits::contributors))
        reading.document.uncertainty.contributors.push_back(read_contributor(item, reading));
    for (const Value& item : reader.array("stated", "an array of stated uncertainties", CountLimits::stated_uncertainties))
        if (auto stated = read_stated_uncertainty(item, reading)) reading.document.uncertainty.stated.push_back(*std::move(stated));
    reader.finish();
}

}  // namespace wayfolio::document
