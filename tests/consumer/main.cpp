// Reads a result document, evaluates it and writes its report: the library without the program. The folder with layouts and fonts may be
// given.
#include <wayfolio/wayfolio.hpp>

#include <iostream>

using namespace wayfolio;

int main(int count, char** words) {
    if (count != 3 && count != 4) return 2;
    const std::filesystem::path data = count == 4 ? words[3] : input::data_folder();
    const document::Document document = document::read_document(std::filesystem::path(words[1]));
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout("report", "", data / "layouts");
    const text::Shaper shaper(data / "fonts");
    output::write_file(words[2], produce::report_pdf({document, evaluation, layout, shaper}));

    const evaluate::SeriesEvaluation& series = evaluation.series.front();
    if (const auto* reversal = evaluate::find_parameter(series, "B"))
        if (const auto* value = evaluate::value_of(reversal->value)) std::cout << "B " << value->in(series.unit) << '\n';
}
