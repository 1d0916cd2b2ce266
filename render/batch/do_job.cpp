#include "batch/do_job.hpp"

#include "archive/record/making.hpp"
#include "archive/verify/checks.hpp"
#include "archive/verify/unchanged.hpp"
#include "document/read_document.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "files/write_file.hpp"
#include "input/digest.hpp"
#include "input/read_file.hpp"
#include "produce/produce.hpp"

#include <algorithm>
#include <new>
#include <system_error>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;

/// What a job is drawn from, with the numbers that a record has kept.
struct Material {
    archive::Remade made;
    std::string kept_numbers;
};

layouts::Layout layout_of(const Job& job) { return layouts::read_layout(job.layout.empty() ? "report" : job.layout, job.paper); }

Material material_of(const Job& job) {
    if (job.source == Source::Record) {
        std::optional<layouts::Layout> other;
        if (!job.layout.empty()) other = layout_of(job);
        return {archive::remake(archive::unchanged_from(job.from), std::move(other), job.paper),
                input::read_regular_file(job.from / "data/evaluation.json")};
    }
    std::error_code none;
    if (fs::exists(job.from, none) && !fs::is_regular_file(job.from, none))  // a pipe would be waited for without end
        throw input::InputMissing(job.from.string(), "is no regular file");
    document::Document document = document::read_document(job.from);
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    return {{std::move(document), std::move(evaluation), layout_of(job)}, ""};
}

bool is_there(const WrittenFile& file, const fs::path& folder) {
    std::error_code none;
    return fs::is_regular_file(folder / file.file, none) && input::sha256_hex(input::read_regular_file(folder / file.file)) == file.sha256;
}

/// Why a job has to be drawn; "" where all of it is there as it was written.
std::string why_drawn(const Job& job, const Key& key, const Doing& doing) {
    const Outcome* const before = doing.before;
    if (before == nullptr || before->state != State::Done) return "new";
    if (before->key != key) return difference(before->key, key);
    for (const std::string& wanted : files_of(job)) {
        const auto file = std::ranges::find(before->files, wanted, &WrittenFile::file);
        if (file == before->files.end()) return wanted + " is wanted too";
        if (!is_there(*file, doing.into)) return wanted + " is not there as it was written";
    }
    return "";
}

void compare_numbers(const std::string& kept, const std::string& fresh, Outcome& outcome) {
    constexpr std::size_t most = 10;
    outcome.changed = archive::number_differences(kept, fresh);
    outcome.changes = outcome.changed.size();
    if (outcome.changed.size() > most) outcome.changed.resize(most);
}

Outcome draw(const Job& job, const Doing& doing, std::string& why) {
    const Material material = material_of(job);
    const produce::Drawing drawing{material.made.document, material.made.evaluation, material.made.layout, doing.shaper};
    Outcome outcome{.name = job.name, .key = key_of(produce::inputs_of(drawing, {}))};
    why = why_drawn(job, outcome.key, doing);
    if (!material.kept_numbers.empty())
        compare_numbers(material.kept_numbers, evaluate::evaluation_json(material.made.document, material.made.evaluation), outcome);
    if (why.empty())
        outcome.files = doing.before->files;
    else if (!doing.only_plan)
        draw_files(job, drawing, outcome, [&](const std::string& name, const std::string& bytes) {
            files::write_file(doing.into / name, bytes, files::LeftOver::Gone);
        });
    return outcome;
}

}  // namespace

std::vector<std::string> files_of(const Job& job) {
    std::vector<std::string> files;
    if (job.wanted.report) files.push_back(job.name + ".pdf");
    if (job.wanted.evaluation) files.push_back(job.name + ".evaluation.json");
    return files;
}

void draw_files(const Job& job, const produce::Drawing& drawing, Outcome& outcome,
                const std::function<void(const std::string& name, const std::string& bytes)>& put) {
    const auto hand_on = [&](const std::string& name, const std::string& bytes) {
        put(name, bytes);
        outcome.files.push_back({name, input::sha256_hex(bytes), bytes.size()});
    };
    if (job.wanted.report) hand_on(job.name + ".pdf", produce::report_pdf(drawing));
    if (job.wanted.evaluation)
        hand_on(job.name + ".evaluation.json", evaluate::evaluation_json(drawing.document, drawing.evaluation));
}

Outcome outcome_of(const std::string& name, const std::function<Outcome()>& draw) {
    const auto ended = [&](State state, std::vector<input::Problem> faults, std::string reason) {
        return Outcome{.name = name, .state = state, .faults = std::move(faults), .reason = std::move(reason)};
    };
    try {
        return draw();
    } catch (const input::InputRejected& rejected) {
        return ended(State::Faulty, rejected.problems(), "");
    } catch (const input::InputMissing& missing) {
        return ended(State::Faulty, {}, missing.what());
    } catch (const text::GlyphMissing& missing) {
        return ended(State::Faulty, {}, missing.what());
    } catch (const files::OutputFailed& failed) {
        return ended(State::Failed, {}, failed.what());
    } catch (const std::bad_alloc&) {
        return ended(State::Failed, {}, "there is not enough memory");
    } catch (const std::system_error& failed) {
        return ended(State::Failed, {}, failed.what());
    }  // anything else is a fault of this program
}

Did do_job(const Job& job, const Doing& doing) {
    std::string why = "new";
    Outcome outcome = outcome_of(job.name, [&] { return draw(job, doing, why); });
    if (outcome.state != State::Done) why = "new";
    return {std::move(outcome), std::move(why)};
}

}  // namespace wayfolio::batch
