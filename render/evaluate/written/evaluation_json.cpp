#include "evaluate/written/evaluation_json.hpp"

#include "evaluate/written/json_lines.hpp"
#include "evaluate/written/json_parts.hpp"
#include "input/share_out.hpp"
#include "units/version.hpp"

namespace wayfolio::evaluate {
namespace {

void write_document(JsonSink& to, const document::Document& document) {
    write_object(to, [&] {
        to.add("sha256", document.sha256);
        add(to, "job", document.job.number);
        if (document.job.revision) to.add("revision", *document.job.revision);
    });
}

/// What there is little of is put together as Json.
template <class ToJson>
auto written(ToJson to_json) {
    return [to_json](JsonSink& to, const auto& item) { to.json(to_json(item)); };
}

void write_lack(JsonSink& to, const Lack& lack) {
    write_object(to, [&] {
        to.add("for", lack.purpose);
        to.add("what", lack.what);
        to.add("pointer", lack.pointer);
    });
}

void write_warning(JsonSink& to, const Warning& warning) {
    write_object(to, [&] {
        to.add("pointer", warning.pointer);
        to.add("text", warning.text);
    });
}

void write_program(JsonSink& to) {
    write_object(to, [&] {
        to.add("name", "wayfolio");
        to.add("version", version());
    });
}

/// Each by itself, as it stands in the list of all.
std::vector<std::string> written_series(const Evaluation& evaluation, std::size_t processors) {
    constexpr std::size_t depth = 2;
    std::vector<std::string> written(evaluation.series.size());
    input::share_out(written.size(), processors, [&](std::size_t i) {
        JsonLines lines(depth);
        constexpr std::size_t of_head = 1 << 14, of_target = 1 << 10;  // twice what they take; what is not written to costs nothing
        lines.reserve(of_head + of_target * evaluation.series[i].targets.size());
        write_series(lines, evaluation.series[i], evaluation);
        written[i] = std::move(lines).taken();
    });
    return written;
}

void write_evaluation(JsonLines& to, const document::Document& document, const Evaluation& evaluation, std::size_t processors) {
    const auto list = [&](const char* name, const auto& items, const auto& write) {
        to.key(name);
        write_list(to, items, write);
    };
    to.add("format", "wayfolio-evaluation");
    to.add("version", 1U);
    to.key("document");
    write_document(to, document);
    to.key("program");
    write_program(to);
    const std::vector<std::string> series = written_series(evaluation, processors);
    std::size_t bytes = 1 << 14;
    for (const std::string& one : series) bytes += one.size();
    to.reserve(2 * bytes);
    list("series", series, [&](JsonSink&, const std::string& one) { to.written(one); });
    list("uncertainty", evaluation.uncertainty, write_uncertainty);
    list("decisions", evaluation.decisions, write_decision);
    list("squareness", evaluation.squareness, written(squareness_json));
    list("setup", evaluation.setup, written(setup_json));
    list("cosine_error", evaluation.cosine, written(cosine_json));
    to.add("environment", environment_json(evaluation.environment));
    list("known_biases", evaluation.known_biases, written(known_bias_json));
    list("compensation", evaluation.compensation, written(compensation_json));
    list("compare", evaluation.found_against_left, written(found_against_left_json));
    list("compare_squareness", evaluation.squareness_found_against_left, written([&](const auto& comparison) {
             return squareness_found_against_left_json(comparison, evaluation);
         }));
    list("lacking", evaluation.lacking, write_lack);
    list("warnings", evaluation.warnings, write_warning);
    to.add("defaults_used", evaluation.defaults_used);
}

}  // namespace

std::string evaluation_json(const document::Document& document, const Evaluation& evaluation, std::size_t processors) {
    JsonLines lines;
    write_object(lines, [&] { write_evaluation(lines, document, evaluation, processors); });
    return std::move(lines).taken() + "\n";
}

}  // namespace wayfolio::evaluate
