#pragma once
#include "evaluate/evaluation.hpp"
#include "layouts/layout.hpp"
#include "service/answers/routes.hpp"

/// What came with a call, read.
namespace wayfolio::service {

/// The bytes of a part. @throws Refused where none came
const std::string& part_in(const Call& call, const std::string& name);

/// The document of a part, which finds its side files among those that came with it and nowhere else.
/// @throws input::InputRejected; Refused where none came
document::Document document_in(const Call& call, const std::string& part = "document");

/// What came as a file of that name. @throws input::InputMissing
const std::string& file_in(const std::map<std::string, std::string>& files, const std::string& name);

/// The layout that came, or the shipped one that the query names. @throws input::InputRejected; Refused for a name that is not shipped
layouts::Layout layout_in(const Call& call);

/// A whole number of the query. @throws Refused for anything else, and outside 1 to `most`
std::size_t number_in(const Call& call, std::string_view option, std::size_t most);

/// The series that the query names. @throws Refused naming those of the document
const evaluate::SeriesEvaluation& series_in(const Call& call, const evaluate::Evaluation& evaluation);

}  // namespace wayfolio::service
