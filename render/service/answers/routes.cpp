#include "service/answers/routes.hpp"

#include "input/json/json.hpp"
#include "service/answers/actions.hpp"
#include "service/answers/problem.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>

namespace wayfolio::service {
namespace {

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    const char small = static_cast<char>(c | 0x20);
    return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
}

/// application/x-www-form-urlencoded, one value. @throws Refused for a percent sign without two digits
std::string decoded(std::string_view text) {
    std::string all;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] != '%') {
            all += text[at] == '+' ? ' ' : text[at];
            continue;
        }
        const int high = at + 2 < text.size() ? hex_digit(text[at + 1]) : -1, low = at + 2 < text.size() ? hex_digit(text[at + 2]) : -1;
        if (high < 0 || low < 0) throw Refused(problems::malformed, "a percent sign of the query has no two hexadecimal digits behind it");
        all += static_cast<char>(high * 16 + low);
        at += 2;
    }
    return all;
}

/// What stands for the part in braces when `path` is one of the route.
std::optional<std::string> named_in(std::string_view route, std::string_view path) {
    const std::size_t open = route.find('{');
    if (open == std::string_view::npos) return route == path ? std::optional<std::string>("") : std::nullopt;
    const std::string_view before = route.substr(0, open), behind = route.substr(route.find('}') + 1);
    if (!path.starts_with(before) || !path.substr(open).ends_with(behind)) return std::nullopt;
    const std::string_view name = path.substr(open, path.size() - open - behind.size());
    if (name.empty() || name.find('/') != std::string_view::npos) return std::nullopt;
    return decoded(name);
}

void check_word(const QueryOption& option, const std::string& value) {
    if (option.words.empty() || std::ranges::find(option.words, value) != option.words.end()) return;
    throw Refused(problems::unknown_option,
                  fmt::format("found {} for {}; expected one of {}", input::quoted(value), option.name, fmt::join(option.words, ", ")));
}

using Options = std::map<std::string, std::string, std::less<>>;

Options options_of(std::string_view query, const Route& route) {
    Options said;
    while (!query.empty()) {
        const std::string_view pair = query.substr(0, query.find('&'));
        query.remove_prefix(std::min(query.size(), pair.size() + 1));
        if (pair.empty()) continue;
        const std::size_t equals = std::min(pair.find('='), pair.size());
        const std::string name = decoded(pair.substr(0, equals)), value = decoded(pair.substr(std::min(pair.size(), equals + 1)));
        const auto known = std::ranges::find(route.options, name, &QueryOption::name);
        if (known == route.options.end())
            throw Refused(problems::unknown_option, fmt::format("{} is no option of this route", input::quoted(name)));
        check_word(*known, value);
        if (!said.emplace(name, value).second) throw Refused(problems::malformed, fmt::format("{} stands twice in the query", name));
    }
    for (const QueryOption& option : route.options) {
        if (option.required && !said.contains(option.name))
            throw Refused(problems::unknown_option, fmt::format("the query has to say {}: {}", option.name, option.meaning));
        said.emplace(option.name, option.standard);
    }
    return said;
}

Files files_for(const Route& route, const Request& request, const Workshop& workshop) {
    switch (route.takes) {
        case Takes::Nothing:
            return {};
        case Takes::Document:
            return files_of(request, "application/json", "document", workshop.limits.parts);
        case Takes::Pdf:
            return files_of(request, "application/pdf", "pdf", workshop.limits.parts);
        case Takes::TwoDocuments:
        case Takes::ExportsAlone:
        case Takes::Exports:
            return files_of(request, "", "", workshop.limits.parts);
        case Takes::MaybeFacts:
            return request.body.empty() ? Files{} : files_of(request, "", "", workshop.limits.parts);
        case Takes::Batch:
            return files_of(request, "", "", workshop.limits.parts_of_a_batch);
    }
    return {};
}

}  // namespace

const std::string& Call::option(std::string_view name) const { return options.find(name)->second; }

std::string methods_of(std::string_view path) {
    std::string methods;
    for (const Route& route : routes())
        if (named_in(route.path, path))
            methods += (methods.empty() ? "" : ", ") + std::string(route.method == "GET" ? "GET, HEAD" : route.method);
    return methods;
}

By asked_of(const Request& request) {
    const auto route = std::ranges::find_if(
        routes(), [&](const Route& one) { return one.method == request.method && named_in(one.path, request.path); });
    return route == routes().end() ? By::Any : route->by;
}

const Route& route_of(std::string_view method, std::string_view path) {
    for (const Route& route : routes())
        if (route.method == method && named_in(route.path, path)) return route;
    const std::string methods = methods_of(path);
    if (methods.empty()) throw Refused(problems::no_route, "GET /v1/openapi.json tells what there is");
    throw Refused(problems::wrong_method, fmt::format("this path takes {}", methods));
}

Answer answer_to(const Request& request, const Workshop& workshop) {
    try {
        if (!request.errand.empty()) return run_errand(request, workshop);
        const Route& route = route_of(request.method, request.path);
        const Call call{request, options_of(request.query, route), files_for(route, request, workshop),
                        *named_in(route.path, request.path)};
        return route.answer(call, workshop);
    } catch (...) {  // one bad request ends in an answer, never with the worker
        return problem_of(std::current_exception());
    }
}

}  // namespace wayfolio::service
