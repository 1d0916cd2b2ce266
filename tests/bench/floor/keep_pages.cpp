// wayfolio-pages RESULT.json LAYOUT|SERIES/FIGURE PAGES: keeps the finished pages of a report, or a figure, for wayfolio-floor.
#include "bench/floor/frame_file.hpp"
#include "document/read_document.hpp"
#include "input/data_folder.hpp"
#include "produce/produce.hpp"

#include <fmt/format.h>

#include <fstream>

int main(int count, char** words) {
    using namespace wayfolio;
    if (count != 4) {
        fmt::print(stderr, "wayfolio-pages RESULT.json LAYOUT|SERIES/FIGURE PAGES\n");
        return 2;
    }
    const std::string what = words[2];
    const std::size_t part = what.find('/');
    const document::Document document = document::read_document(std::filesystem::path(words[1]));
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout(part == what.npos ? what : "report", "");
    const text::Shaper shaper(input::data_folder() / "fonts");
    const produce::Drawing drawing{document, evaluation, layout, shaper};
    std::vector<frame::Frame> pages;
    if (part == what.npos)
        pages = produce::report_pages(drawing);
    else
        pages = {produce::figure(drawing, {what.substr(0, part), what.substr(part + 1), ""})};
    std::vector<std::string> files;
    for (const text::Shaper::FontFile& font : shaper.fonts()) files.push_back((shaper.font_folder() / font.file).string());
    std::ofstream(words[3], std::ios::binary) << bench::packed(pages, files);
}
