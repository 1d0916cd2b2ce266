#pragma once
#include "input/json/object_reader.hpp"
#include "layouts/layout.hpp"

/// Private to this room.
namespace wayfolio::layouts {

/// Says what one layout file says of the house's words over `house`.
void read_house(input::ObjectReader& reader, HouseWords& house);

}  // namespace wayfolio::layouts
