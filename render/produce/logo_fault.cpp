#include "produce/logo_fault.hpp"

#include "document/logo_picture.hpp"
#include "input/json/json.hpp"
#include "input/json/object_reader.hpp"

#include <memory>

namespace wayfolio::produce {
namespace {

input::Place place_of_logo(const document::Document& document) {
    const input::Json json = input::read_json(document.bytes, document.file);
    const input::Value* value = &json.root;
    for (const char* key : {"job", "laboratory", "logo"})
        if (const input::Value* const member = value->member(key)) value = member;
    return {value->line, value->column, input::pointer_of(json.root, *value)};
}

}  // namespace

std::vector<input::Problem> logo_faults(const document::Document& document) {
    const auto logo = document::logo_picture(document);
    if (!logo) return {};
    const auto format = logo->format == document::Picture::Format::Svg ? frame::Image::Format::Svg : frame::Image::Format::Png;
    const frame::Rect box{units::point(0), units::point(0), units::point(72), units::point(32)};
    const auto fault = output::picture_fault({box, format, std::make_shared<const std::string>(logo->bytes)});
    if (!fault) return {};
    return {{document.file, place_of_logo(document), fault->found(), fault->expected(), ""}};
}

}  // namespace wayfolio::produce
