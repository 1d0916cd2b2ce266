// Gathers readings from an export, reads a result document, evaluates it and writes its report: the library without the program. The folder
// with layouts and fonts may be given.
#include <wayfolio/wayfolio.hpp>

#include <iostream>

using namespace wayfolio;

/// Readings may come from an export, as a mapping says.
std::size_t gathered_readings() {
    constexpr std::string_view mapping = R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
 "exports": [{"file": "x.csv", "position": {"column": "T"}, "approach": "positive", "run": "file",
   "values": [{"series": "x", "column": "V"}]}]})";
    gather::GatherRequest request{.mapping = mapping, .mapping_file = "mapping.json"};
    request.exports.push_back(gather::export_of_bytes("x.csv", "T,V\n0,0.1\n250,1.4\n"));
    return gather::gather(request).account.series.front().used;
}

int main(int count, char** words) {
    if (count != 3 && count != 4) return 2;
    if (gathered_readings() != 2) return 3;
    const std::filesystem::path data = count == 4 ? words[3] : input::data_folder();
    const document::Document document = document::read_document(std::filesystem::path(words[1]));
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout("report", "", data / "layouts");
    const text::Shaper shaper(data / "fonts");
    files::write_file(words[2], produce::report_pdf({document, evaluation, layout, shaper}));

    const evaluate::SeriesEvaluation& series = evaluation.series.front();
    if (const auto* reversal = evaluate::find_parameter(series, "B"))
        if (const auto* value = evaluate::value_of(reversal->value)) std::cout << "B " << value->in(series.unit) << '\n';
}
