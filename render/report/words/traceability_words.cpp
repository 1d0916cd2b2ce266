#include "report/words/passages.hpp"

#include "evaluate/surroundings/time.hpp"
#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

/// "2026-05-11 08:10", or the date alone where no time is written.
std::string moment_words(const std::string& written) {
    constexpr std::size_t date = 10, to_minutes = 16;
    std::string words = written.substr(0, written.size() > date ? to_minutes : date);
    std::ranges::replace(words, 'T', ' ');
    return words;
}

bool is_before(const std::string& one, const std::string& other) {
    return evaluate::seconds_of(one).value_or(0) < evaluate::seconds_of(other).value_or(0);
}

/// "Laser interferometer, serial 1042": what both tables call an instrument.
std::string short_name(const document::Instrument& instrument) {
    if (!instrument.serial.empty())
        return capitalised(instrument.kind.empty() ? instrument.id : instrument.kind) + ", serial " + instrument.serial;
    return instrument.kind.empty() ? instrument.id : capitalised(instrument.kind) + " “" + instrument.id + "”";
}

Text or_not_stated(const std::string& words) { return words.empty() ? Text().quiet("not stated") : Text(words); }

std::string with_comma(const std::string& first, const std::string& second) {
    return first.empty() || second.empty() ? first + second : first + ", " + second;
}

std::vector<Text> instrument_row(const Subject& subject, const document::Instrument& instrument) {
    std::string name = short_name(instrument);
    const std::string made = instrument.maker + (instrument.maker.empty() || instrument.model.empty() ? "" : " ") + instrument.model;
    name = with_comma(name, made);
    if (instrument.vacuum_wavelength_nm) {
        const int decimals = units::decimals_needed(*instrument.vacuum_wavelength_nm, 6);
        name += ", vacuum wavelength " + with_unit(units::number(*instrument.vacuum_wavelength_nm, decimals, style_of(subject)), "nm");
    }
    return {Text(name), or_not_stated(with_comma(instrument.certificate, instrument.certified_by)), or_not_stated(instrument.calibrated),
            or_not_stated(instrument.due), or_not_stated(instrument.traceable_to)};
}

bool states_square(const document::SquarenessRequest& request) {
    return !request.square_serial.empty() || !request.square_certificate.empty() || request.square_error_urad;
}

std::vector<Text> square_row(const document::SquarenessRequest& request) {
    return {Text("Square for " + request.axes[0] + " and " + request.axes[1] +
                 (request.square_serial.empty() ? "" : ", serial " + request.square_serial)),
            or_not_stated(request.square_certificate), Text(no_value), Text(no_value), Text(no_value)};
}

/// What all of several instruments lead to the SI through; empty where they differ, or where one does not say.
std::string shared_trace(const document::Document& document) {
    const auto& all = document.instruments;
    if (all.size() < 2) return "";
    const bool same = std::ranges::all_of(all, [&](const auto& one) { return one.traceable_to == all[0].traceable_to; });
    return same ? all[0].traceable_to : "";
}

PlainTable certificates(const Subject& subject) {
    PlainTable table{.columns = {
        {"Instrument", 0.36}, {"certificate, issuer", 0.19}, {"calibrated", 0.115}, {"due", 0.115}, {"leads to the SI through", 0.22}}};
    for (const auto& instrument : subject.document.instruments) table.rows.push_back(instrument_row(subject, instrument));
    std::vector<std::string> squares;
    for (const auto& request : subject.document.squareness) {
        const std::string known = request.square_serial + "\n" + request.square_certificate;
        if (!states_square(request) || std::ranges::find(squares, known) != squares.end()) continue;
        squares.push_back(known);
        table.rows.push_back(square_row(request));
    }
    if (shared_trace(subject.document).empty()) return table;
    // Said once, under the table.
    table.columns = {{"Instrument", 0.42}, {"certificate, issuer", 0.35}, {"calibrated", 0.115}, {"due", 0.115}};
    for (auto& row : table.rows) row.pop_back();
    return table;
}

/// An instrument of the table above: by its serial number alone where no other has that.
std::string known_by(const document::Document& document, const std::string& id) {
    const document::Instrument* instrument = document::find_instrument(document, id);
    if (!instrument) return id;
    const auto same = std::ranges::count(document.instruments, instrument->serial, &document::Instrument::serial);
    return instrument->serial.empty() || same > 1 ? short_name(*instrument) : "serial " + instrument->serial;
}

/// Series of one state that one instrument measured at one time.
struct MeasuredTogether {
    std::string instrument, state, when;
    std::vector<std::string> errors;
};

std::vector<MeasuredTogether> measured_together(const document::Document& document) {
    std::vector<MeasuredTogether> groups;
    for (const auto& series : document.series) {
        if (series.runs.empty() && series.instrument.empty()) continue;
        const std::string when = measured_when(series);
        const auto same = [&](const MeasuredTogether& group) {
            return group.instrument == series.instrument && group.state == series.state && group.when == when;
        };
        auto group = std::ranges::find_if(groups, same);
        if (group == groups.end()) group = groups.insert(groups.end(), {series.instrument, series.state, when, {}});
        add_once(group->errors, series.error.text());
    }
    return groups;
}

PlainTable measured_with(const document::Document& document) {
    PlainTable table{.columns = {{"Measured", 0.46}, {"with", 0.24}, {"when, as the document writes it", 0.3}}};
    for (const MeasuredTogether& group : measured_together(document)) {
        table.rows.push_back({Text(listed(group.errors) + state_suffix(group.state)), or_not_stated(known_by(document, group.instrument)),
                              or_not_stated(group.when)});
    }
    return table;
}

}  // namespace

std::string measured_when(const document::Series& series) {
    std::string from, to;
    for (const auto& run : series.runs) {
        const std::string& ended = run.ended.empty() ? run.started : run.ended;
        if (!run.started.empty() && (from.empty() || is_before(run.started, from))) from = run.started;
        if (!ended.empty() && (to.empty() || is_before(to, ended))) to = ended;
    }
    if (from.empty() || date_part(from) != date_part(to)) return from.empty() ? from : moment_words(from) + " to " + moment_words(to);
    const std::string begin = moment_words(from), end = moment_words(to);
    const bool timed = end.size() > date_part(to).size() && begin != end;
    return begin + (timed ? " to " + end.substr(date_part(to).size() + 1) : "");
}

std::optional<Section> traceability_section(const Subject& subject) {
    Section section{.heading = "Instruments and traceability"};
    if (PlainTable table = certificates(subject); !table.rows.empty()) section.parts.emplace_back(std::move(table));
    if (const std::string trace = shared_trace(subject.document); !trace.empty())
        section.parts.emplace_back(Paragraph{Text("Every instrument leads to the SI through " + trace + ".")});
    if (PlainTable table = measured_with(subject.document); !table.rows.empty() && !section.parts.empty())
        section.parts.emplace_back(std::move(table));
    return section.parts.empty() ? std::nullopt : std::optional(section);
}

}  // namespace wayfolio::report
