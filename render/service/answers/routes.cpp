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

constexpr std::string_view json = "application/json", pdf = "application/pdf", png = "image/png", svg = "image/svg+xml";

const QueryOption layout{"layout", "a shipped layout; a layout of one's own travels as the part \"layout\"", {}, "report", "summary"},
    paper{"paper", "the size of the paper; where it is not said, the layout's own", {"A4", "Letter"}, "", "Letter"},
    series{"series", "the id of a series of the document", {}, "", "x-exx", true},
    some_series{"series", "the id of a series; where it is not said, a figure of the whole document", {}, "", "x-exx"};

std::vector<Route> all_routes() {
    using enum Takes;
    return {
        {"POST",
         "/v1/check",
         "check",
         "What is left to do at the machine; all faults, warnings and missing entries",
         Document,
         {},
         {json},
         check},
        {"POST", "/v1/evaluation", "evaluation", "Every evaluated number", Document, {}, {json}, evaluation},
        {"POST", "/v1/report", "report", "The whole report", Document, {layout, paper}, {pdf}, report},
        {"POST", "/v1/pages", "pages", "The pages of the report, each with its words", Document, {layout, paper}, {json}, page_list},
        {"POST",
         "/v1/page",
         "page",
         "One page of the report as a picture",
         Document,
         {layout, paper, {"number", "which page, from 1", {}, "1", "2"}, {"dpi", "dots per inch", {"48", "96", "144", "192"}, "96", "144"}},
         {png},
         page},
        {"POST", "/v1/figures", "figures", "The names of all figures that the document supports", Document, {}, {json}, figure_list},
        {"POST",
         "/v1/figure",
         "figure",
         "One figure",
         Document,
         {some_series,
          {"name", "which figure, as /v1/figures names it; where it is not said, the first", {}, "", "error"},
          {"format", "what it is written as", {"svg", "pdf", "png"}, "svg", "png"},
          {"width", "as wide as the report's column or as a phone", {"column", "narrow"}, "column", "narrow"},
          {"layout", "a shipped layout; a layout of one's own travels as the part \"layout\"", {}, "figures", "figures"}},
         {svg, pdf, png},
         figure},
        {"POST", "/v1/table", "table", "The readings of one series as a table (RFC 4180)", Document, {series}, {"text/csv"}, table},
        {"POST",
         "/v1/certificate",
         "certificate",
         "The draft of a machine-readable certificate",
         Document,
         {},
         {"application/xml"},
         certificate},
        {"POST",
         "/v1/verification",
         "verification",
         "Whether a PDF of this program is as it was made",
         Pdf,
         {{"against", "a fingerprint that was kept elsewhere, at least 16 digits", {}, "", "0123456789abcdef"}},
         {json},
         verify},
        {"POST",
         "/v1/redrawing",
         "redrawing",
         "A PDF of this program drawn again from what it carries",
         Pdf,
         {{"layout", "a shipped layout; where it is not said, the layout that was used", {}, "", "summary"},
          {"paper", "the size of the paper; where it is not said, the one that was used", {"A4", "Letter"}, "", "Letter"}},
         {pdf},
         redrawing},
        {"POST",
         "/v1/comparison",
         "comparison",
         "What differs between two documents: readings, settings, results, verdicts",
         TwoDocuments,
         {{"beside", "which states are set beside each other", {"same", "left-and-found"}, "same", "same"}},
         {json},
         comparison},
        {"POST",
         "/v1/proposal",
         "proposal",
         "A mapping for exports, as far as they say what they are, and each question that they leave open",
         ExportsAlone,
         {},
         {json},
         proposal},
        {"POST",
         "/v1/gathered",
         "gathered",
         "A document of exports, as a mapping says, and the account of it",
         Exports,
         {{"state", "the state of series whose mapping names none", {}, "", "as-found"}},
         {json},
         gathered},
        {"GET", "/v1/layouts", "layouts", "The layouts that come with the service", Nothing, {}, {json}, layout_list},
        {"GET",
         "/v1/schemas/{name}",
         "schema",
         "The JSON Schema of a file that is read or written",
         Nothing,
         {},
         {"application/schema+json"},
         schema},
        {"GET", "/v1/problems", "problems", "What can go wrong, by its code", Nothing, {}, {json}, problem_list},
        {"GET", "/v1/openapi.json", "description", "This description", Nothing, {}, {json}, description},
        {"GET", "/readyz", "ready", "Whether a report can be drawn: a tiny one is", Nothing, {}, {"text/plain"}, ready},
    };
}

/// What stands for {name} when `path` is one of the route.
std::optional<std::string> tail_of(std::string_view route, std::string_view path) {
    const std::size_t open = route.find('{');
    if (open == std::string_view::npos) return route == path ? std::optional<std::string>("") : std::nullopt;
    if (!path.starts_with(route.substr(0, open))) return std::nullopt;
    const std::string_view tail = path.substr(open);
    if (tail.empty() || tail.find('/') != std::string_view::npos) return std::nullopt;
    return std::string(tail);
}

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
    }
    return {};
}

}  // namespace

const std::string& Call::option(std::string_view name) const { return options.find(name)->second; }

std::span<const Route> routes() {
    static const std::vector<Route> all = all_routes();
    return all;
}

std::string methods_of(std::string_view path) {
    std::string methods;
    for (const Route& route : routes())
        if (tail_of(route.path, path))
            methods += (methods.empty() ? "" : ", ") + std::string(route.method == "GET" ? "GET, HEAD" : route.method);
    return methods;
}

const Route& route_of(std::string_view method, std::string_view path) {
    for (const Route& route : routes())
        if (route.method == method && tail_of(route.path, path)) return route;
    const std::string methods = methods_of(path);
    if (methods.empty()) throw Refused(problems::no_route, "GET /v1/openapi.json tells what there is");
    throw Refused(problems::wrong_method, fmt::format("this path takes {}", methods));
}

Answer answer_to(const Request& request, const Workshop& workshop) {
    try {
        const Route& route = route_of(request.method, request.path);
        const Call call{request, options_of(request.query, route), files_for(route, request, workshop), *tail_of(route.path, request.path)};
        return route.answer(call, workshop);
    } catch (...) {  // one bad request ends in an answer, never with the worker
        return problem_of(std::current_exception());
    }
}

}  // namespace wayfolio::service
