#include "service/answers/actions.hpp"
#include "service/answers/etag.hpp"
#include "service/answers/problem.hpp"
#include "service/shown/shown.hpp"

#include "evaluate/written/json_text.hpp"
#include "input/problem.hpp"
#include "units/version.hpp"

#include <algorithm>

/// What this service is: its limits, what it keeps, documents to try it with.
namespace wayfolio::service {
namespace {

constexpr std::size_t most_samples = 100;  // by choice, no source: a list that a person still looks through

/// The sound result documents of the folder, by their names; what else lies there is nobody's concern.
std::vector<Shown> samples_of(const Workshop& workshop) {
    if (workshop.samples.empty()) throw Refused(problems::nothing_there, "wayfolio serve --samples DIR shows documents to try it with");
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(workshop.samples))
        if (entry.is_regular_file() && entry.path().extension() == ".json") paths.push_back(entry.path());
    std::ranges::sort(paths);
    std::vector<Shown> samples;
    for (const std::filesystem::path& path : paths) {
        if (samples.size() == most_samples) break;
        try {
            Shown sample = shown_at(path);
            if (sample.sound) samples.push_back(std::move(sample));
        } catch (const input::InputMissing&) {  // what it names does not lie beside it
        }
    }
    return samples;
}

}  // namespace

Answer about_this_service(const Call& call, const Workshop& workshop) {
    const Limits& limits = workshop.limits;
    const evaluate::Json json{{"version", version()},
                              {"limits",
                               {{"body_bytes", limits.body_bytes},
                                {"parts", limits.parts},
                                {"parts_of_a_batch", limits.parts_of_a_batch},
                                {"deadline_s", limits.deadline.count()}}},
                              {"records", workshop.offers.records},
                              {"batches", workshop.offers.batches},
                              {"samples", !workshop.samples.empty()}};
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer sample_list(const Call& call, const Workshop& workshop) {
    evaluate::Json json = evaluate::Json::array();
    for (const Shown& sample : samples_of(workshop)) {
        evaluate::Json files = evaluate::Json::array();
        for (const auto& [name, bytes] : sample.files) files.push_back(name);
        json.push_back({{"name", sample.name}, {"title", sample.title}, {"files", std::move(files)}});
    }
    return tagged(call.request, {200, "application/json", evaluate::to_text(json), ""});
}

Answer sample_file(const Call& call, const Workshop& workshop) {
    for (Shown& sample : samples_of(workshop)) {
        if (sample.name == call.named) return tagged(call.request, {200, "application/json", std::move(sample.document), ""});
        if (const auto file = sample.files.find(call.named); file != sample.files.end())
            return tagged(call.request, {200, "application/octet-stream", std::move(file->second), ""});
    }
    throw Refused(problems::nothing_there, "no sample is called so, and none names such a file");
}

}  // namespace wayfolio::service
