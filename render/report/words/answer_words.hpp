#pragma once
#include "report/words/subject.hpp"

/// Sentences of the answer page, made by plain rules over the results. The program never diagnoses a machine.
namespace wayfolio::report {

Text answer_lead(const Subject& subject, const std::vector<SeriesView>& views);
Text answer_body(const Subject& subject, const std::vector<SeriesView>& views);
/// One paragraph for each limit that is not kept beyond doubt.
std::vector<Text> what_failed(const Subject& subject, const std::vector<SeriesView>& views);
/// The engineer's own remarks that begin "What to do next:", else neutral advice by rule.
std::vector<Text> what_next(const Subject& subject, const std::vector<SeriesView>& views);
std::vector<Text> answer_cautions(const Subject& subject);
std::vector<Text> issue_note(const document::Document& document);

/// Remarks that are advice ("What to do next: ...") stand on the first page only.
bool is_advice(std::string_view remark);

}  // namespace wayfolio::report
