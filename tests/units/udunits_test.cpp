#include "units/position.hpp"

#include <udunits2.h>
#include <catch2/catch.hpp>

#include <map>
#include <memory>
#include <string>

using namespace wayfolio::units;

namespace {

/// udunits2, the unit library of Unidata, with the database that it ships; every unit spelt as it spells it.
class Udunits {
public:
    Udunits() {
        ut_set_error_message_handler(ut_ignore);
        system_.reset(ut_read_xml(nullptr));
        REQUIRE(system_);
    }

    [[nodiscard]] double convert(double value, const char* from, const char* to) const {
        const Unit source = parse(from), wanted = parse(to);
        const std::unique_ptr<cv_converter, decltype(&cv_free)> converter(ut_get_converter(source.get(), wanted.get()), cv_free);
        REQUIRE(converter);
        return cv_convert_double(converter.get(), value);
    }

private:
    using Unit = std::unique_ptr<ut_unit, decltype(&ut_free)>;
    [[nodiscard]] Unit parse(const char* text) const {
        Unit unit(ut_parse(system_.get(), text, UT_UTF8), ut_free);
        INFO(text);
        REQUIRE(unit);
        return unit;
    }
    std::unique_ptr<ut_system, decltype(&ut_free_system)> system_{nullptr, ut_free_system};
};

/// Our spellings, and udunits2's.
const std::map<std::string_view, const char*> deviation_names{
    {"um", "micrometer"},    {"mm", "millimeter"},    {"in", "inch"},        {"uin", "microinch"},
    {"urad", "microradian"}, {"arcsec", "arcsecond"}, {"deg", "arc_degree"}, {"um/m", "micrometer/meter"}};
const std::map<std::string_view, const char*> position_names{{"mm", "millimeter"}, {"in", "inch"}, {"deg", "arc_degree"}};

}  // namespace

TEST_CASE("every deviation unit converts into every other of its kind as udunits2 converts it") {
    const Udunits udunits;
    for (const auto& from : deviation_units)
        for (const auto& to : deviation_units) {
            if (from.dimension != to.dimension) continue;
            INFO(from.spelling << " to " << to.spelling);
            const double theirs = udunits.convert(12.3456789, deviation_names.at(from.spelling), deviation_names.at(to.spelling));
            CHECK(Deviation(12.3456789, from).in(to) == Approx(theirs).epsilon(4e-15));
        }
}

TEST_CASE("every position unit converts as udunits2 converts it") {
    const Udunits udunits;
    for (const auto& from : position_units)
        for (const auto& to : position_units) {
            if (from.dimension != to.dimension) continue;
            INFO(from.spelling << " to " << to.spelling);
            const double theirs = udunits.convert(303.8, position_names.at(from.spelling), position_names.at(to.spelling));
            CHECK(Position(303.8, from).in(to) == Approx(theirs).epsilon(4e-15));
        }
}
