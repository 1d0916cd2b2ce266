#include "commands/figure_format.hpp"
#include "commands/inputs.hpp"
#include "files/unfinished.hpp"
#include "files/write_file.hpp"
#include "input/data_folder.hpp"
#include "produce/figure_maker.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <set>

namespace wayfolio::commands {

namespace {

using produce::FigureFormat;
using produce::FigureName;

struct FigureOptions {
    std::string result, series, figure, output, format, layout = "figures";
    bool narrow = false;
    std::optional<int> dots_per_inch{};
};

/// How a format is drawn. @throws UsageError for an option that it has not
produce::FigureForm form_of(FigureFormat format, const FigureOptions& options) {
    if (options.narrow && format == FigureFormat::Pdf) throw UsageError("--narrow is for screens: .svg or .png");
    if (options.dots_per_inch && format != FigureFormat::Png) throw UsageError("--dpi is for .png: the other formats have no dots");
    produce::FigureForm form{format};
    if (options.narrow) form.width = produce::FigureWidth::Narrow;
    if (options.dots_per_inch) form.dots_per_inch = *options.dots_per_inch;
    return form;
}

/// A figure of the whole document, which needs no --series.
FigureName document_figure(const FigureOptions& options, const std::vector<FigureName>& all) {
    for (const FigureName& figure : all)
        if (figure.series.empty() && figure.name == options.figure) return figure;
    if (options.figure == "environment") throw UsageError("no environment figure: the document records no environment over time");
    if (options.figure == "measurement-lines")
        throw UsageError("no figure of the measurement lines: the document does not say which axis is upright and where the others stood");
    throw UsageError("--figure needs --series (only environment and measurement-lines do not)");
}

FigureName wanted_figure(const FigureOptions& options, const evaluate::SeriesEvaluation& series, const std::vector<FigureName>& all) {
    std::vector<std::string> known;
    for (const FigureName& figure : all) {
        if (figure.series != series.id) continue;
        if (options.figure.empty() || figure.name == options.figure) return figure;
        known.push_back(figure.name);
    }
    if (known.empty()) throw UsageError(fmt::format("the data of series \"{}\" support no figure", series.id));
    throw UsageError(fmt::format("series \"{}\" has no figure \"{}\"{}; it has: {}", series.id, options.figure,
                                 did_you_mean(options.figure, known), fmt::join(known, ", ")));
}

void create_folder(const std::string& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) throw files::OutputFailed(folder, error.message(), /*cannot_create=*/true);
}

/// A file name that stays in its folder, whatever the ids are: they come from the document.
std::string file_stem(const FigureName& which) {
    std::string stem = which.series + (which.series.empty() ? "" : "-") + which.name;
    const auto leads_elsewhere = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos;
    };
    std::ranges::replace_if(stem, leads_elsewhere, '-');
    if (stem.front() == '.') stem.front() = '-';
    return stem;
}

/// Moves files to another folder, in the place of files of the same names: all, or none where one of them cannot be moved.
void let_go(const std::filesystem::path& from, const std::filesystem::path& to, const std::set<std::string>& files, const FilesRead& read) {
    for (const std::string& file : files) {
        std::error_code none;
        if (std::filesystem::is_directory(to / file, none))
            throw files::OutputFailed(to / file, "is a folder, where a figure is to be written", /*cannot_create=*/true);
        require_output(to / file, read);
    }
    for (const std::string& file : files) {
        std::error_code error;
        std::filesystem::rename(from / file, to / file, error);
        if (error) throw files::OutputFailed(to / file, error.message(), /*cannot_create=*/false);
    }
}

/// Each figure of the document to FOLDER/SERIES-FIGURE.FORMAT, those of the whole document to FOLDER/FIGURE.FORMAT: all or none.
void write_all(const produce::Drawing& drawing, const std::vector<FigureName>& all, const FigureOptions& options, const Console& console) {
    const std::string ending = options.format.empty() ? "svg" : options.format;
    const produce::FigureForm form = form_of(*format_called(ending), options);
    create_folder(options.output);
    // They wait here until all of them are there.
    const files::Unfinished waiting(std::filesystem::path(options.output) / "figures", files::Unfinished::Kind::Folder);
    std::set<std::string> files;
    produce::FigureMaker maker(drawing);
    for (const FigureName& which : all) {
        std::string file = file_stem(which) + "." + ending;
        for (int again = 2; !files.insert(file).second; ++again) file = fmt::format("{}-{}.{}", file_stem(which), again, ending);
        show_progress(console, files.size(), all.size(), file);
        files::write_file(waiting.path() / file, maker.bytes(which, form));
    }
    let_go(waiting.path(), options.output, files, files_read(drawing.document, drawing.layout));
    end_progress(console);
    tell(fmt::format("{} {} in {}", all.size(), all.size() == 1 ? "figure" : "figures", options.output));
}

ExitCode figure(const FigureOptions& options, const Console& console) {
    require_output(options.output, {options.result, options.layout});
    const bool one = !options.series.empty() || !options.figure.empty();
    if (!one && options.output == "-") throw UsageError("all figures go to a folder: give -o FOLDER, or choose one figure with --series");
    if (one) require_no_terminal(options.output, console);
    const auto form = one ? std::optional(form_of(figure_format(options.output, options.format), options)) : std::nullopt;
    const layouts::Layout layout = layouts::read_layout(options.layout, "");
    const auto [document, evaluation] = read_and_evaluate(options.result, console);
    const std::vector<FigureName> all = produce::figure_names(document, evaluation);
    const text::Shaper shaper(input::data_folder() / "fonts");
    const produce::Drawing drawing{document, evaluation, layout, shaper};
    if (one) {
        const FigureName which =
            options.series.empty() ? document_figure(options, all) : wanted_figure(options, series_called(evaluation, options.series), all);
        write_output(options.output, produce::figure_bytes(drawing, which, *form), files_read(document, layout));
    } else {
        write_all(drawing, all, options, console);
    }
    return ExitCode::Fine;
}

}  // namespace

void add_figure(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<FigureOptions>();
    CLI::App* verb = program.add_subcommand("figure", "one figure as SVG, PDF or PNG; or all figures to a folder");
    verb->footer(
        "wayfolio figure K-2041.json --series x-exx --figure error -o x-exx.svg\n"
        "  wayfolio figure K-2041.json --figure environment -o environment.svg\n"
        "  wayfolio figure K-2041.json -o figures --format png --dpi 600\n"
        "  wayfolio figure K-2041.json --series x-exx -o x-exx.svg --narrow");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_option("--series", options->series, "id of the series (default: all figures, to the folder -o)")->type_name("ID");
    verb->add_option("--figure", options->figure,
                     "figure of the series (default: the first); environment and measurement-lines need no --series")
        ->type_name("NAME");
    verb->add_option("-o,--output", options->output, "output file: .svg, .pdf or .png, or - for standard output; a folder for all figures")
        ->type_name("OUT");
    verb->add_option("--format", options->format, "format (default: that of the file name; in a folder svg)")
        ->type_name("svg|pdf|png")
        ->check(one_of("format", {"svg", "pdf", "png"}));
    verb->add_flag("--narrow", options->narrow, "as wide as a phone (240 pt, 320 pixels), the letters as large as in the report");
    verb->add_option("--dpi", options->dots_per_inch, "resolution of a PNG in dots per inch (default: 150)")
        ->type_name("DOTS")
        ->check(CLI::Range(36, 600));
    verb->add_option("--layout", options->layout, "a shipped layout or a layout file of your own")->type_name("NAME|FILE");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return figure(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
