#pragma once

namespace wayfolio::frame {

/// One lambda for each kind of a variant; a forgotten kind does not compile.
template <class... Cases>
struct overloaded : Cases... {
    using Cases::operator()...;
};

}  // namespace wayfolio::frame
