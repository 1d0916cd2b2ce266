#include "layouts/layout_draft.hpp"
#include "layouts/read_house.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::layouts {
namespace {

using input::ObjectReader;
using input::Value;

constexpr std::size_t most_letters = 110;  // of small type on the narrower of the shipped papers
constexpr std::size_t most_signatures = 6, most_paragraphs = 100;

std::size_t letters_in(std::string_view text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }));
}

}  // namespace

void read_house(ObjectReader& reader, HouseWords& house) {
    const Value* const member = reader.find("house");
    if (member == nullptr) return;
    ObjectReader part(*member, reader.faults(), "what the house says");
    if (std::string line = part.text("first_line"); !line.empty()) house.first_line = std::move(line);
    if (std::string heading = part.text("heading"); !heading.empty()) house.heading = std::move(heading);
    if (auto paragraphs = part.texts("paragraphs", most_paragraphs); !paragraphs.empty()) house.paragraphs = std::move(paragraphs);
    if (auto signatures = part.texts("signatures", most_signatures); !signatures.empty()) house.signatures = std::move(signatures);
    const Value* const written = member->member("first_line");
    if (written != nullptr && letters_in(house.first_line) > most_letters)
        part.faults().add(*written, fmt::format("{} letters", letters_in(house.first_line)),
                          fmt::format("at most {}: it stands in one line", most_letters));
    part.finish();
}

void check_house(const LayoutDraft& draft, ObjectReader& reader) {
    const HouseWords& house = draft.layout.house;
    const Value* const member = reader.value().member("house");
    const Value& place = member == nullptr ? reader.value() : *member;
    if (house.paragraphs.empty()) return;
    if (house.heading.empty()) reader.faults().add_missing(place, "heading", "a heading for the paragraphs");
    if (std::ranges::find(draft.layout.blocks, "house") == draft.layout.blocks.end())
        reader.faults().add(place, "paragraphs without a place", "the block \"house\" among \"blocks\"");
}

}  // namespace wayfolio::layouts
