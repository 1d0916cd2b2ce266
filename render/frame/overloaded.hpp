#pragma once

namespace wayfolio::frame {

/// One lambda for each kind of a variant; a forgotten kind does not compile.
template <class... Cases>
struct overloaded : Cases... {
    using Cases::operator()...;
};
template <class... Cases>
overloaded(Cases...) -> overloaded<Cases...>;  // Clang 14 does not deduce it for an aggregate

}  // namespace wayfolio::frame
