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

/// What several instruments all have, such as the issuer of their certificates; empty where they differ, or where one does not say.
std::string shared(const document::Document& document, std::string document::Instrument::*what) {
    const auto& all = document.instruments;
    if (all.size() < 2) return "";
    const bool same = std::ranges::all_of(all, [&](const auto& one) { return one.*what == all[0].*what; });
    return same ? all[0].*what : "";
}

std::string shared_trace(const document::Document& document) { return shared(document, &document::Instrument::traceable_to); }
std::string shared_issuer(const document::Document& document) { return shared(document, &document::Instrument::certified_by); }

std::vector<Text> instrument_row(const Subject& subject, const document::Instrument& instrument) {
    std::string name = short_name(instrument);
    const std::string made = instrument.maker + (instrument.maker.empty() || instrument.model.empty() ? "" : " ") + instrument.model;
    name = with_comma(name, made);
    if (instrument.vacuum_wavelength_nm) {
        const int decimals = units::decimals_needed(*instrument.vacuum_wavelength_nm, 6);
        name += ", vacuum wavelength " + with_unit(units::number(*instrument.vacuum_wavelength_nm, decimals, style_of(subject)), "nm");
    }
    const std::string issuer = shared_issuer(subject.document).empty() ? instrument.certified_by : "";
    return {Text(name), or_not_stated(with_comma(instrument.certificate, issuer)), or_not_stated(instrument.calibrated),
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

PlainTable certificates(const Subject& subject) {
    const bool issuers = shared_issuer(subject.document).empty();
    PlainTable table{.columns = {{"Instrument", 0.36}, {issuers ? "certificate, issuer" : "certificate", 0.19}, {"calibrated", 0.115},
                                 {"due", 0.115}, {"traceable to", 0.22}}};
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
    const double room = issuers ? 0.35 : 0.14, date = 0.115;
    table.columns = {{"Instrument", 1 - room - 2 * date}, {table.columns[1].head, room}, {"calibrated", date}, {"due", date}};
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

/// Errors that one instrument measured, and when in each state, in the order of the states; nothing where it measured none in it.
struct MeasuredTogether {
    std::string instrument;
    std::vector<std::string> errors;
    std::vector<std::optional<std::string>> when;
};

std::vector<std::string> states_of(const document::Document& document) {
    std::vector<std::string> states;
    for (const auto& series : document.series)
        if (!series.runs.empty() || !series.instrument.empty()) add_once(states, series.state);
    return states;
}

/// One for each error and instrument; of more states than have a column each, one for each state, too.
std::vector<MeasuredTogether> measured_alone(const document::Document& document, const std::vector<std::string>& states, bool apart) {
    std::vector<MeasuredTogether> all;
    for (const auto& series : document.series) {
        if (series.runs.empty() && series.instrument.empty()) continue;
        const auto state = static_cast<std::size_t>(std::ranges::find(states, series.state) - states.begin());
        const std::string error = series.error.text() + (apart ? state_suffix(series.state) : "");
        const std::size_t place = apart ? 0 : state;
        const auto same = [&](const MeasuredTogether& one) {
            return one.instrument == series.instrument && one.errors.front() == error && !one.when[place];
        };
        auto found = std::ranges::find_if(all, same);
        if (found == all.end()) {
            all.push_back({series.instrument, {error}, std::vector<std::optional<std::string>>(apart ? 1 : states.size())});
            found = all.end() - 1;
        }
        found->when[place] = measured_when(series);
    }
    return all;
}

std::vector<MeasuredTogether> measured_together(const std::vector<MeasuredTogether>& alone) {
    std::vector<MeasuredTogether> groups;
    for (const MeasuredTogether& one : alone) {
        const auto group = std::ranges::find_if(
            groups, [&](const MeasuredTogether& other) { return other.instrument == one.instrument && other.when == one.when; });
        if (group == groups.end()) groups.push_back(one);
        else add_once(group->errors, one.errors.front());
    }
    return groups;
}

PlainTable measured_with(const document::Document& document) {
    const std::vector<std::string> states = states_of(document);
    constexpr std::size_t most_columns = 2;
    const bool apart = states.size() > most_columns;
    const std::size_t columns = apart ? 1 : states.size();
    constexpr double measured = 0.28, with = 0.2;
    PlainTable table{.columns = {{"Measured", measured}, {"with", with}}};
    for (std::size_t i = 0; i < columns; ++i)
        table.columns.push_back({columns == 1 ? "when, as the document writes it" + (apart ? "" : state_suffix(states[i]))
                                              : states[i].empty() ? "when" : state_words(states[i]),
                                 (1 - measured - with) / static_cast<double>(columns)});
    for (const MeasuredTogether& group : measured_together(measured_alone(document, states, apart))) {
        std::vector<Text> row{Text(listed(group.errors)), or_not_stated(known_by(document, group.instrument))};
        for (const auto& when : group.when) row.push_back(when ? or_not_stated(*when) : Text(no_value));
        table.rows.push_back(std::move(row));
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
    const std::string trace = shared_trace(subject.document), issuer = shared_issuer(subject.document);
    std::string words = trace.empty() ? "" : "Every instrument is traceable to " + trace + ".";
    if (!issuer.empty()) words += (words.empty() ? "" : " ") + ("Certificates: " + issuer) + ".";
    if (!words.empty()) section.parts.emplace_back(Paragraph{Text(words)});
    if (PlainTable table = measured_with(subject.document); !table.rows.empty() && !section.parts.empty())
        section.parts.emplace_back(std::move(table));
    return section.parts.empty() ? std::nullopt : std::optional(section);
}

}  // namespace wayfolio::report
