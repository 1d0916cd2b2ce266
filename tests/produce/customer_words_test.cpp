#include "produce/comparison.hpp"
#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "frame/walk.hpp"
#include "layouts/layout.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <map>
#include <regex>
#include <set>

/// What a customer reads names things as people do: no places of a document, no keys, no ids of its series.
using namespace wayfolio;

namespace {

const std::filesystem::path customer_source = WAYFOLIO_SOURCE_FOLDER;

std::vector<std::filesystem::path> customer_documents() {
    std::vector<std::filesystem::path> all;
    for (const char* folder : {"sample-results", "sample-results/visits", "tests/golden/awkward"})
        for (const auto& entry : std::filesystem::directory_iterator(customer_source / folder))
            if (entry.path().extension() == ".json" && entry.path().stem() != "script-without-font") all.push_back(entry.path());
    std::ranges::sort(all);
    return all;
}

/// The lines of a page as they are read, and what is said of its figures.
std::string read_words(const std::vector<frame::Frame>& pages) {
    std::string words;
    for (const frame::Frame& page : pages) {
        frame::walk(page.items, [&](const frame::GlyphRun& run) { words += run.text + " "; });
        frame::walk(page.items, [&](const frame::Group& group) { words += group.alternative + " "; });
        frame::walk(page.items, [&](const frame::Bookmark& bookmark) { words += bookmark.title + " "; });
        frame::walk(page.items, [&](const frame::Link& link) { words += link.description + " "; });
    }
    return words;
}

/// Ids that no reader would take for a word: with a hyphen or an underscore in them.
std::set<std::string> telling_ids(const document::Document& document) {
    std::set<std::string> ids;
    for (const auto& series : document.series)
        if (series.id.find_first_of("-_") != std::string::npos) ids.insert(series.id);
    return ids;
}

std::set<std::string> internal_words(const std::string& text, const std::set<std::string>& ids) {
    std::set<std::string> found;
    // "/series/0" and "/job/title", but neither "µm/m" nor "and/or"; "half_width", but no "_" alone.
    static const std::regex pointer(R"((^|[\s(])/[a-z_]+(/[A-Za-z0-9_]+)*)"), key(R"([a-z]+_[A-Za-z_]+)");
    for (const std::regex& one : {pointer, key})
        for (std::sregex_iterator at(text.begin(), text.end(), one), end; at != end; ++at) found.insert(at->str());
    for (const std::string& id : ids) {
        const std::regex alone("(^|[^A-Za-z0-9_-])" + id + "($|[^A-Za-z0-9_-])");
        if (std::regex_search(text, alone)) found.insert(id);
    }
    return found;
}

/// A document whose series and instruments go by names that stand for nothing: "qzq0k", "qzq1k".
class Renamed {
public:
    explicit Renamed(nlohmann::json json) : json_(std::move(json)) {
        for (const char* list : {"series", "instruments"})
            if (json_.contains(list))
                for (auto& one : json_[list])
                    if (one.contains("id")) names_.emplace(one["id"].get<std::string>(), "");
        // What an instrument lacks is told by its name, too.
        if (json_.contains("instruments"))
            for (auto& one : json_["instruments"]) {
                one.erase("traceable_to");
                one.erase("calibrated");
            }
        for (auto& [id, name] : names_) name = "qzq" + std::to_string(given_++) + "k";
        rename(json_, "");
    }
    [[nodiscard]] std::string bytes() const { return json_.dump(); }
    [[nodiscard]] std::size_t names() const { return names_.size(); }

private:
    void rename(nlohmann::json& value, const std::string& key) {
        static const std::set<std::string> words{"kind", "name", "maker", "model", "serial", "title", "remarks", "error", "state",
                                                  "correlated"};  // words of the author
        if (words.contains(key)) return;
        if (value.is_object())
            for (auto& [name, member] : value.items()) rename(member, name);
        else if (value.is_array())
            for (auto& member : value) rename(member, key);
        else if (value.is_string())
            if (const auto found = names_.find(value.get<std::string>()); found != names_.end()) value = found->second;
    }
    nlohmann::json json_;
    std::map<std::string, std::string> names_;
    int given_ = 0;
};

}  // namespace

TEST_CASE("no page has the id of a series or of an instrument, whatever they are called", "[slow][again]") {
    const auto layout = layouts::read_layout("report", "A4");
    std::size_t names = 0;
    for (const auto& path : customer_documents()) {
        INFO(path.filename().string());
        const Renamed renamed(nlohmann::json::parse(support::file_bytes(path)));
        const auto document = document::read_document(renamed.bytes(), path.filename().string(), [&](const std::string& name) {
            return support::file_bytes(path.parent_path() / name);
        });
        const auto evaluation = evaluate::evaluate(document);
        const std::string words = read_words(produce::report_pages({document, evaluation, layout, testing::shaper()}));
        static const std::regex name("[^ ]* ?[^ ]* ?[^ ]*qzq[0-9]+k[^ ]* ?[^ ]*");
        std::set<std::string> found;
        for (std::sregex_iterator at(words.begin(), words.end(), name), end; at != end; ++at) found.insert(at->str());
        CHECK(found == std::set<std::string>{});
        names += renamed.names();
    }
    CHECK(names > 100);
}

TEST_CASE("no page of any sample or awkward document has a place of the document, a key of it or the id of a series", "[slow][again]") {
    const auto layout = layouts::read_layout("report", "A4");
    std::size_t with_ids = 0;
    for (const auto& path : customer_documents()) {
        const auto document = document::read_document(path);
        const auto evaluation = evaluate::evaluate(document);
        const auto ids = telling_ids(document);
        with_ids += ids.empty() ? 0 : 1;
        INFO(path.filename().string());
        const std::string words = read_words(produce::report_pages({document, evaluation, layout, testing::shaper()}));
        CHECK(internal_words(words, ids) == std::set<std::string>{});
    }
    CHECK(with_ids >= 4);
}

TEST_CASE("pages of what changed name entries and values as people do, whatever part of a document changed", "[slow]") {
    const auto layout = layouts::read_layout("report", "A4");
    const auto path = customer_source / "sample-results/long-axis.json";
    const auto files = [&](const std::string& name) { return support::file_bytes(path.parent_path() / name); };
    const nlohmann::json old_json = nlohmann::json::parse(support::file_bytes(path));
    nlohmann::json json = old_json;
    json["job"]["title"] = "Another title";
    json["evaluation"]["decision_rule"] = "guard-band";
    json["uncertainty"]["contributors"][3]["half_width"] = 0.25;
    json["uncertainty"]["stated"].push_back({{"series", "x-exx-left"}, {"parameter", "B"}, {"expanded", 1.1}, {"unit", "um"}});
    json["machine"]["axes"][0]["expansion_um_per_m_K"]["value"] = 12.25;
    json["environment"]["samples"][0]["air_C"] = 20.9;
    json["series"][0]["tolerances"][0]["limit"] = 13;
    json["series"][0]["runs"][0]["excluded"].push_back({{"target", 3}, {"reason", "crane"}});
    json["series"].erase(json["series"].size() - 1);
    json["compensation"] = nlohmann::json::array();
    const auto was = document::read_document(old_json.dump(), "old.json", files);
    const auto now = document::read_document(json.dump(), "new.json", files);
    const auto of_was = evaluate::evaluate(was), of_now = evaluate::evaluate(now);
    auto ids = telling_ids(was);
    ids.merge(telling_ids(now));
    const std::string words =
        read_words(produce::comparison_pages({was, now, of_was, of_now, layout, testing::shaper(), {{"wayfolio", "test"}}}));
    CHECK(internal_words(words, ids) == std::set<std::string>{});
    for (const char* said : {"Job: title", "Another title", "Evaluation: decision rule", "guard band", "half width", "limit for"}) {
        INFO(said);
        CHECK(words.find(said) != std::string::npos);
    }
}

TEST_CASE("the search for internal words finds pointers, keys and ids, and leaves units and words alone") {
    const std::set<std::string> ids{"x-exx-left"};
    CHECK(internal_words("at /series/0/runs and half_width of x-exx-left.", ids) ==
          std::set<std::string>{" /series/0/runs", "half_width", "x-exx-left"});
    CHECK(internal_words("1.2 µm/m, 0.3 µm/(m K), A / µm, Page 3 of 7, x-exx-left-over", ids).empty());
}
