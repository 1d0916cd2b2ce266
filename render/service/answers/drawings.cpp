#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/given.hpp"
#include "service/answers/made_again.hpp"
#include "service/answers/problem.hpp"

#include "archive/verify/unchanged.hpp"
#include "evaluate/written/json_text.hpp"
#include "frame/walk.hpp"
#include "output/output.hpp"
#include "produce/inputs.hpp"
#include "produce/unset_text.hpp"

#include <fmt/format.h>

#include <optional>

namespace wayfolio::service {
namespace {

/// What a call wants drawn, with everything that a drawing refers to.
struct Subject {
    document::Document document;
    evaluate::Evaluation evaluation;
    layouts::Layout layout;
    produce::Drawing drawing;

    Subject(const Call& call, const Workshop& workshop)
        : document(document_in(call)),
          evaluation(evaluate::evaluate(document)),
          layout(layout_in(call)),
          drawing{document, evaluation, layout, workshop.shaper} {}
    Subject(const Subject&) = delete;
    Subject& operator=(const Subject&) = delete;
};

std::string fingerprint_of(const Subject& subject, const produce::Product& product) {
    return produce::inputs_of(subject.drawing, product).fingerprint;
}

/// The figure that the query names, or the first one of the series or of the whole document.
const produce::FigureName& wanted(const Call& call, const std::vector<produce::FigureName>& all) {
    const std::string &series = call.option("series"), &name = call.option("name");
    for (const produce::FigureName& figure : all)
        if (figure.series == series && (name.empty() || figure.name == name)) return figure;
    throw Refused(problems::nothing_there, "the document has no such figure; /v1/figures names those that it has");
}

produce::FigureForm form_in(const Call& call) {
    using enum produce::FigureFormat;
    const std::string& format = call.option("format");
    const bool narrow = call.option("width") == "narrow";
    if (narrow && format == "pdf") throw Refused(problems::unknown_option, "a narrow figure is for screens: svg or png");
    return {format == "svg" ? Svg : format == "png" ? Png : Pdf, narrow ? produce::FigureWidth::Narrow : produce::FigureWidth::Column};
}

/// What a page says, line by line, in the order in which it is read.
std::string words_of(const frame::Frame& page) {
    std::string words;
    std::optional<units::Paper> line;
    frame::walk(page.items, [&](const frame::GlyphRun& run) {
        if (!words.empty()) words += line == run.origin.y ? ' ' : '\n';
        line = run.origin.y;
        words += run.text;
    });
    return words;
}

std::string media_type_of(produce::FigureFormat format) {
    switch (format) {
        case produce::FigureFormat::Svg:
            return "image/svg+xml";
        case produce::FigureFormat::Pdf:
            return "application/pdf";
        case produce::FigureFormat::Png:
            return "image/png";
    }
    return {};
}

}  // namespace

Answer report(const Call& call, const Workshop& workshop) {
    const Subject subject(call, workshop);
    return tagged(call.request, fingerprint_of(subject, {}), [&] {
        return Answer{200, "application/pdf", produce::report_pdf(subject.drawing), ""};
    });
}

Answer page_list(const Call& call, const Workshop& workshop) {
    const Subject subject(call, workshop);
    return tagged(call.request, fingerprint_of(subject, {}) + "-pages", [&] {
        evaluate::Json json{{"pages", evaluate::Json::array()}};
        for (const frame::Frame& page : produce::report_pages(subject.drawing))
            json["pages"].push_back({{"number", json["pages"].size() + 1}, {"words", words_of(page)}});
        return Answer{200, "application/json", evaluate::to_text(json), ""};
    });
}

Answer page(const Call& call, const Workshop& workshop) {
    constexpr std::size_t most_pages = 2000, most_dots = 192;
    const Subject subject(call, workshop);
    const std::size_t number = number_in(call, "number", most_pages), dots = number_in(call, "dpi", most_dots);
    return tagged(call.request, fmt::format("{}-page-{}-{}", fingerprint_of(subject, {}), number, dots), [&] {
        const std::vector<frame::Frame> pages = produce::report_pages(subject.drawing);
        if (number > pages.size()) throw Refused(problems::nothing_there, fmt::format("the report has {} pages", pages.size()));
        return Answer{200, "image/png", output::png(pages[number - 1], workshop.shaper, static_cast<double>(dots)), ""};
    });
}

Answer redrawing(const Call& call, const Workshop& workshop) {
    return redrawn(archive::unchanged_from_pdf(part_in(call, "pdf"), "report.pdf"), call, workshop);
}

Answer figure_list(const Call& call, const Workshop&) {
    const document::Document document = document_in(call);
    evaluate::Json json = evaluate::Json::array();
    for (const produce::FigureName& figure : produce::figure_names(document, evaluate::evaluate(document)))
        json.push_back({{"series", figure.series}, {"name", figure.name}, {"title", figure.title}});
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer figure(const Call& call, const Workshop& workshop) {
    const produce::FigureForm form = form_in(call);
    const Subject subject(call, workshop);
    const auto all = produce::figure_names(subject.document, subject.evaluation);
    const produce::FigureName& which = wanted(call, all);
    const std::string tag =
        fmt::format("{}-{}-{}", fingerprint_of(subject, {which.series, which.name}), call.option("format"), call.option("width"));
    return tagged(call.request, tag, [&] {
        return Answer{200, media_type_of(form.format), produce::figure_bytes(subject.drawing, which, form), ""};
    });
}

}  // namespace wayfolio::service
