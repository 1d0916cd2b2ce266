#pragma once

namespace wayfolio::files {

/// What killed runs left of a file: is looked for when it is written, or was removed before.
enum class LeftOver { Sought, Gone };

}  // namespace wayfolio::files
