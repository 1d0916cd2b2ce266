#include "archive/verify/checks.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "gather/facts/facts.hpp"
#include "gather/gather.hpp"
#include "input/digest.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::archive {
namespace {

using document::Origin;
using document::OriginFile;
using document::Series;

bool is_kept(const Origin& origin) {
    return origin.mapping && !origin.mapping->kept.empty() && !origin.files.empty() &&
           std::ranges::none_of(origin.files, [](const OriginFile& file) { return file.kept.empty(); });
}

std::string_view bytes_of(const document::Document& document, const std::string& kept) {
    const auto found = std::ranges::find(document.side_files, kept, &document::SideFile::name);
    return found == document.side_files.end() ? std::string_view() : std::string_view(found->bytes);
}

std::vector<gather::ExportFile> exports_of(const document::Document& document, const Origin& origin) {
    std::vector<gather::ExportFile> exports;
    for (const OriginFile& file : origin.files) exports.push_back(gather::export_of_bytes(file.file, bytes_of(document, file.kept)));
    return exports;
}

Series gathered(const document::Document& document, const Origin& origin) {
    return gather::gathered_again(bytes_of(document, origin.mapping->kept), origin.mapping->file, exports_of(document, origin),
                                  origin.series);
}

std::string words(const std::optional<units::Deviation>& reading, const Series& series) {
    return reading ? fmt::format("{} {}", units::shortest(reading->in(series.unit)), series.unit.spelling) : std::string("no reading");
}

/// What does not travel inside a report is not there to be gathered from.
bool lies_apart(const document::Document& document, const Origin& origin) {
    return std::ranges::any_of(origin.files, [&](const OriginFile& file) {
        return std::ranges::find(document.large_side_files, file.kept, &document::LargeSideFile::name) != document.large_side_files.end();
    });
}

/// Of all samples, too many to be held, with the bits of their numbers.
std::string digest_of(const document::Trace& trace, const Series& series) {
    input::Digest digest(input::DigestKind::Sha256);
    trace.walk([&](std::span<const document::TraceSample> samples) {
        std::vector<double> numbers;
        for (const document::TraceSample& sample : samples)
            numbers.insert(numbers.end(), {sample.position.in(series.position_unit), sample.value.in(series.unit)});
        digest.add({reinterpret_cast<const char*>(numbers.data()), numbers.size() * sizeof(double)});
    });
    return digest.hex();
}

/// Each reading of a document's series against the one that its exports give.
class Comparison {
public:
    Comparison(const Series& kept, const Series& fresh, Check& check) : kept_(kept), fresh_(fresh), check_(check) {}

    void run() {
        if (kept_.runs.size() != fresh_.runs.size())
            return fail(fmt::format("{} runs, the exports give {}", kept_.runs.size(), fresh_.runs.size()));
        for (std::size_t run = 0; run < kept_.runs.size(); ++run) {
            if (kept_.runs[run].approach != fresh_.runs[run].approach)
                fail(fmt::format("{}: another approach than in the exports", evaluate::run_name(kept_, run)));
            for (std::size_t target = 0; target < kept_.targets.size(); ++target) compare(run, target);
        }
        for (const document::Target& target : fresh_.targets)
            if (std::ranges::find(kept_.targets, target.written, &document::Target::written) == kept_.targets.end())
                fail(fmt::format("the exports have a target at {}, which the document lacks", units::shortest(target.written)));
        if (kept_.trace) compare_traces();
    }

private:
    void compare_traces() {
        const std::size_t samples = kept_.trace->count(), given = fresh_.trace ? fresh_.trace->count() : 0;
        if (samples != given) return fail(fmt::format("{} samples on the fly, the exports give {}", samples, given));
        if (kept_.trace->many) {
            if (digest_of(*kept_.trace, kept_) != digest_of(*fresh_.trace, kept_))
                fail("samples on the fly are not those that the exports give");
            return;
        }
        for (std::size_t place = 0; place < samples; ++place) {
            const document::TraceSample &one = kept_.trace->samples[place], &same = fresh_.trace->samples[place];
            if (one.position.in(kept_.position_unit) != same.position.in(kept_.position_unit) || one.value != same.value)
                return fail(fmt::format("sample {} on the fly is not the one that the exports give", place + 1));
        }
    }

    void fail(const std::string& text) {
        check_.holds = Holds::No;
        check_.details.push_back(fmt::format("series {}: {}", kept_.id, text));
    }

    void compare(std::size_t run, std::size_t target) {
        const auto same = std::ranges::find(fresh_.targets, kept_.targets[target].written, &document::Target::written);
        const auto place = static_cast<std::size_t>(same - fresh_.targets.begin());
        const bool there = same != fresh_.targets.end();
        const auto reading = kept_.runs[run].deviations[target];
        const auto given = there ? fresh_.runs[run].deviations[place] : std::nullopt;
        const std::string where = fmt::format("{} at {}", evaluate::run_name(kept_, run), units::shortest(kept_.targets[target].written));
        if (reading != given) fail(fmt::format("{}: {}, the exports give {}", where, words(reading, kept_), words(given, kept_)));
        const bool excluded = kept_.runs[run].exclusion(target) != nullptr;
        const bool marked = there && fresh_.runs[run].exclusion(place) != nullptr;
        if (marked && !excluded) fail(where + ": the exports set it aside, the document uses it");
        if (excluded && !marked) check_.details.push_back(fmt::format("series {}: {}: set aside after the gathering", kept_.id, where));
    }

    const Series &kept_, &fresh_;
    Check& check_;
};

bool same_sample(const document::EnvironmentSample& one, const document::EnvironmentSample& other) {
    return one.air_C == other.air_C && one.pressure_hPa == other.pressure_hPa && one.humidity_percent == other.humidity_percent &&
           one.co2_ppm == other.co2_ppm && one.machine_C == other.machine_C;
}

/// Samples of the document against those of the exports, by their times.
std::vector<std::string> samples_that_differ(const std::vector<document::EnvironmentSample>& kept,
                                             const std::vector<document::EnvironmentSample>& fresh) {
    std::vector<std::string> lines;
    const auto at = [](const std::vector<document::EnvironmentSample>& all, const std::string& time) {
        return std::ranges::find(all, time, &document::EnvironmentSample::time);
    };
    for (const document::EnvironmentSample& sample : fresh) {
        const auto there = at(kept, sample.time);
        if (there == kept.end())
            lines.push_back(fmt::format("the exports have a sample at {}, which the document lacks", sample.time));
        else if (!same_sample(*there, sample))
            lines.push_back(fmt::format("the sample at {} is not the one that the exports give", sample.time));
    }
    for (const document::EnvironmentSample& sample : kept)
        if (at(fresh, sample.time) == fresh.end()) lines.push_back(fmt::format("no export has the sample at {}", sample.time));
    return lines;
}

}  // namespace

std::optional<Check> check_readings(const document::Document& document) {
    Check check{.what = "readings, gathered again from the kept exports"};
    bool any = false;
    for (const Series& series : document.series) {
        if (!series.origin || (series.runs.empty() && !series.trace)) continue;
        if (!is_kept(*series.origin)) {
            check.details.push_back(fmt::format("series {}: its exports or its mapping are not kept", series.id));
            continue;
        }
        if (lies_apart(document, *series.origin)) {
            check.details.push_back(fmt::format("series {}: its exports lie apart, and were not gathered again", series.id));
            continue;
        }
        any = true;
        try {
            Comparison(series, gathered(document, *series.origin), check).run();
        } catch (const input::InputRejected& rejected) {
            check.holds = Holds::No;
            for (const std::string& line : lines_of(rejected)) check.details.push_back(fmt::format("series {}: {}", series.id, line));
        }
    }
    return any ? std::optional(check) : std::nullopt;
}

std::optional<Check> check_environment(const document::Document& document) {
    if (!document.environment || !document.environment->origin) return std::nullopt;
    Check check{.what = "environment, gathered again from the kept exports"};
    const Origin& origin = *document.environment->origin;
    if (!is_kept(origin)) return std::nullopt;
    try {
        const auto fresh =
            gather::environment_again(bytes_of(document, origin.mapping->kept), origin.mapping->file, exports_of(document, origin));
        check.details = samples_that_differ(document.environment->samples, fresh);
    } catch (const input::InputRejected& rejected) { check.details = lines_of(rejected); }
    check.holds = check.details.empty() ? Holds::Yes : Holds::No;
    return check;
}

std::optional<Check> check_facts(const document::Document& document) {
    std::vector<gather::FactsFile> files;
    const auto nothing = [](const std::string& name) -> std::string { throw input::InputMissing(name, "is not kept"); };
    for (const OriginFile& file : document.facts)
        if (!file.kept.empty()) files.push_back({file.file, file.kept, std::string(bytes_of(document, file.kept)), nothing});
    if (files.empty()) return std::nullopt;
    Check check{.what = "facts, merged again from the kept files", .details = gather::facts_that_differ(document.bytes, files)};
    check.holds = check.details.empty() ? Holds::Yes : Holds::No;
    return check;
}

}  // namespace wayfolio::archive
