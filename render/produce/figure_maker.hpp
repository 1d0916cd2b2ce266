#pragma once
#include "produce/inputs.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::produce {

/// Makes any number of figures of one document. What they have in common, above all the files that each PDF carries, is made and packed
/// once: the time of a record grew with the square of its series.
class FigureMaker {
public:
    /// @param drawing outlives it
    explicit FigureMaker(const Drawing& drawing);
    /// As figure_bytes(). @throws as figure_bytes()
    std::string bytes(const FigureName& which, const FigureForm& form);

private:
    output::EmbeddedFiles files(const Inputs& inputs, const std::string& created);

    const Drawing& drawing_;
    const InputsOfMany inputs_;
    const report::Subject subject_;
    output::EmbeddedFiles files_;  ///< of the first PDF
};

}  // namespace wayfolio::produce
