#pragma once
#include <memory>

namespace wayfolio::text {

/// A C handle that closes itself: Owned<PangoContext, g_object_unref>.
template <auto close>
struct Closes {
    template <class T>
    void operator()(T* handle) const {
        close(handle);
    }
};
template <class T, auto close>
using Owned = std::unique_ptr<T, Closes<close>>;

}  // namespace wayfolio::text
