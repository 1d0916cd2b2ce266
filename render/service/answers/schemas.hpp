#pragma once
#include <span>
#include <string_view>

namespace wayfolio::service {

/// The JSON Schema of a kind of file.
struct NamedSchema {
    std::string_view name;
    std::string_view (*text)();
};

/// What a user writes first, then what the program prints.
std::span<const NamedSchema> schemas();

}  // namespace wayfolio::service
