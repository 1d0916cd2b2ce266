#include "service/answers/etag.hpp"

#include "input/digest.hpp"

#include <algorithm>
#include <string_view>

namespace wayfolio::service {
namespace {

/// Whether a list of tags holds one, by weak comparison, or is "*".
bool holds(std::string_view list, std::string_view tag) {
    if (list == "*") return true;
    while (!list.empty()) {
        const std::size_t open = list.find('"');
        if (open == std::string_view::npos) return false;
        const std::size_t close = list.find('"', open + 1);
        if (close == std::string_view::npos) return false;
        if (list.substr(open, close + 1 - open) == tag) return true;
        list.remove_prefix(close + 1);
    }
    return false;
}

}  // namespace

Answer tagged(const Request& request, const std::string& tag, const std::function<Answer()>& make) {
    const std::string quoted = '"' + tag + '"';
    if (holds(request.if_none_match, quoted)) return {304, "", "", quoted};
    Answer answer = make();
    answer.etag = quoted;
    return answer;
}

Answer tagged(const Request& request, Answer made) {
    const std::string tag = input::sha256_hex(made.content_type + "\n" + made.body);
    return tagged(request, tag, [&] { return std::move(made); });
}

}  // namespace wayfolio::service
