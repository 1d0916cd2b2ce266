// wayfolio-bench RESULT.json [ROUNDS]: how the time of a report is shared among its stages, as the median of several rounds in one
// process. Shares are what to compare between two builds: the milliseconds are those of this machine on this day.
#include "produce/produce.hpp"
#include "page/lay_out.hpp"
#include "report/build.hpp"
#include "document/read_document.hpp"
#include "input/data_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstring>
#include <map>

using namespace wayfolio;

namespace {

using Milliseconds = std::chrono::duration<double, std::milli>;

class Rounds {
public:
    template <class Stage>
    auto time(const std::string& name, Stage stage) {
        const auto began = std::chrono::steady_clock::now();
        auto result = stage();
        const Milliseconds taken = std::chrono::steady_clock::now() - began;
        if (std::ranges::find(names_, name) == names_.end()) names_.push_back(name);
        times_[name].push_back(taken.count());
        return result;
    }

    void print() {
        std::map<std::string, double> medians;
        double whole = 0;
        for (auto& [name, times] : times_) {
            std::ranges::nth_element(times, times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2));
            whole += medians[name] = times[times.size() / 2];
        }
        for (const std::string& name : names_) fmt::print("{:<22}{:8.2f} ms{:6.0f} %\n", name, medians[name], 100 * medians[name] / whole);
        fmt::print("{:<22}{:8.2f} ms\n", "whole", whole);
    }

private:
    std::vector<std::string> names_;
    std::map<std::string, std::vector<double>> times_;
};

void one_round(Rounds& rounds, const char* path) {
    const layouts::Layout layout = rounds.time("read the layout", [] { return layouts::read_layout("report", ""); });
    const document::Document document =
        rounds.time("read the document", [&] { return document::read_document(std::filesystem::path(path)); });
    const evaluate::Evaluation evaluation = rounds.time("evaluate", [&] { return evaluate::evaluate(document); });
    const text::Shaper shaper = rounds.time("open the fonts", [] { return text::Shaper(input::data_folder() / "fonts"); });
    const report::Model model = rounds.time("build the report", [&] { return report::build({document, evaluation, layout}); });
    const std::vector<frame::Frame> pages = rounds.time("lay out the pages", [&] { return page::lay_out(model, {layout, shaper}); });
    const output::Metadata metadata{
        .title = model.title, .author = model.author, .subject = model.subject, .keywords = "", .created = model.created};
    const std::string file = rounds.time("write the PDF", [&] { return output::pdf(pages, metadata, shaper); });
    if (!file.starts_with("%PDF")) throw std::logic_error("no PDF came out");
}

}  // namespace

int main(int count, char** words) {
    int wanted = 11;
    if (count == 3) std::from_chars(words[2], words[2] + std::strlen(words[2]), wanted);
    if (count < 2 || count > 3 || wanted < 1) {
        fmt::print(stderr, "wayfolio-bench RESULT.json [ROUNDS]\n");
        return 2;
    }
    Rounds rounds;
    for (int i = 0; i < wanted; ++i) one_round(rounds, words[1]);
    fmt::print("{}, median of {} rounds\n", words[1], wanted);
    rounds.print();
}
