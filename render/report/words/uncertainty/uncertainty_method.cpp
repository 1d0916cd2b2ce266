#include "report/words/passages.hpp"

#include <algorithm>

namespace wayfolio::report {

std::optional<Section> uncertainty_method(const Subject& subject) {
    if (subject.evaluation.uncertainty.empty()) return std::nullopt;
    BulletList list;
    list.items = {
        marked("Law of propagation to first order: root of the sum of squares of sensitivity times standard uncertainty (GUM clause 5); "
               "correlated input quantities are added first and make one with degrees of freedom of its own. Effective degrees of freedom "
               "by Welch and Satterthwaite (GUM G.4), truncated."),
        marked("Limits become standard uncertainties by their distribution: rectangular, half width / √3; triangular, / √6; U-shaped, / √2 "
               "(GUM 4.3); expanded ones are divided by their *k*."),
        marked("How input quantities act on ranges, maxima and standard deviations was derived here from the GUM; it is not the text of "
               "ISO 230-2 Annex A, which was not available. With travel *L*: the instrument's length-proportional part times *L* plus its "
               "own constant, as certificates state the sum; every other input quantity as the document states it, independent; at each "
               "target that sets the value the variance of its mean (*s*² + drift²)/*n*, and of targets that tie the largest *U*. *A* and "
               "*R* add the uncertainty of *s* itself, *s*/√(2(*n* − 1)) (GUM E.4.3). *R* and *B*, measured at one place, take no length "
               "part."),
    };
    if (std::ranges::any_of(subject.evaluation.series, [](const auto& one) {
            return one.kind == evaluate::SeriesKind::Straightness || one.kind == evaluate::SeriesKind::AngleSteps;
        }))
        list.items.push_back(marked("The uncertainty of a straightness reference line is left out."));
    list.items.push_back(
        marked("Bias of ranges by random variation: the expected largest noise among the means that may set the value (within three "
               "standard uncertainties of the extreme; others at a shortened distance), *s* pooled over neighbours to 20 degrees of "
               "freedom. Own simulation: on flat, sloped and periodic axes the limits hold in 95 % or more. It is not in the probability "
               "of conformity."));
    if (std::ranges::any_of(subject.evaluation.uncertainty, [](const auto& entry) { return entry.known_bias.has_value(); }))
        list.items.push_back(marked(
            "Known and not corrected: effects on the length of a series (air and expansion that the instrument took, the angle of the "
            "beam, the dead path) that no input quantity covers and that exceed a tenth of *U*(*E*). They are added with their signs, "
            "and *U* is *k u* plus the size of the sum (GUM F.2.4.5). Guard bands hold it in full, the probability of conformity "
            "counts it towards the limit."));
    const bool k2 = subject.document.evaluation.coverage.value_or(document::Coverage::K2) == document::Coverage::K2;
    list.items.push_back(k2 ? marked("Expanded with *k* = 2. What that covers, by Student's *t* and the effective degrees of freedom, "
                                     "stands beside each.")
                            : marked("Expanded with Student's *t* for 95 % and the effective degrees of freedom (GUM G.6.4)."));
    if (subject.document.job.laboratory && !subject.document.job.laboratory->capability.empty())
        list.items.emplace_back("Never below the laboratory's CMC (ILAC-P14:09/2020).");
    return Section{.heading = "How uncertainties were combined", .parts = {list}, .set_as = SetAs::Reference};
}

}  // namespace wayfolio::report
