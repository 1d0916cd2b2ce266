#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace wayfolio::input {

/// A result document or a layout as it may go to a customer.
struct CustomerCopy {
    std::string bytes;         ///< as given, but for what was left out
    std::size_t left_out = 0;  ///< members called `internal`; where it is not 0, the copy says so under "x-reduced"
    bool reduced = false;      ///< the copy is a reduced one, made now or before
};

/// Leaves out every member called `internal`, at any depth; all other bytes stay as they are. A copy of a copy is the same bytes.
/// @param bytes a file that was read without a fault
CustomerCopy customer_copy(std::string_view bytes);

}  // namespace wayfolio::input
