#include "frame/contrast.hpp"
#include "layouts/layout_draft.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace wayfolio::layouts {
namespace {

/// What a colour is held to against the paper.
struct Reads {
    ColourRole role;
    double least;
    std::string_view why;
};

constexpr std::string_view letters = "letters (WCAG 2.1, 1.4.3)", marks = "lines and marks (WCAG 2.1, 1.4.11)";
constexpr std::array readable{Reads{ColourRole::Ink, 4.5, letters},           Reads{ColourRole::Grey, 4.5, letters},
                              Reads{ColourRole::PositiveLabel, 4.5, letters}, Reads{ColourRole::NegativeLabel, 4.5, letters},
                              Reads{ColourRole::Positive, 3, marks},          Reads{ColourRole::Negative, 3, marks}};

/// Two lines printed in grey; by choice, no source: dash and marker tell them apart as well.
constexpr double least_apart = 1.3;

std::string_view word_of(ColourRole role) { return role_words<ColourRole>[static_cast<std::size_t>(role)].word; }

/// Cut, not rounded: 4.498 is not the 4.5 that is asked for.
double printed(double ratio) { return std::floor(ratio * 100) / 100; }

}  // namespace

void check_colours(const LayoutDraft& draft, input::ObjectReader& reader) {
    const auto colour = [&](ColourRole role) { return draft.colours[role].value_or(Colour{}); };
    const auto add = [&](ColourRole role, const std::string& found, const std::string& expected) {
        const input::Value* const part = reader.value().member("colours");
        const input::Value* const written = part == nullptr ? nullptr : part->member(word_of(role));
        reader.faults().add(written != nullptr ? *written : part != nullptr ? *part : reader.value(), found, expected);
    };
    for (const Reads& one : readable) {
        const double ratio = frame::contrast(colour(one.role), colour(ColourRole::Paper));
        if (ratio < one.least)
            add(one.role, fmt::format("\"{}\" with a contrast of {:.2f}:1 to the paper", word_of(one.role), printed(ratio)),
                fmt::format("at least {}:1, for {}", one.least, one.why));
    }
    const double apart = frame::contrast(colour(ColourRole::Positive), colour(ColourRole::Negative));
    if (apart < least_apart)
        add(ColourRole::Negative, fmt::format("\"positive\" and \"negative\" with a contrast of {:.2f}:1 to each other", printed(apart)),
            fmt::format("at least {}:1, so that they differ when printed in grey", least_apart));
}

}  // namespace wayfolio::layouts
