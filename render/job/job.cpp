#include "job/job.hpp"

#include "page/lay_out.hpp"
#include "report/build.hpp"

namespace wayfolio::job {

std::vector<frame::Frame> report_pages(const Drawing& drawing) {
    const report::Model model = report::build({drawing.document, drawing.evaluation, drawing.layout});
    return page::lay_out(model, {drawing.layout, drawing.shaper});
}

std::string report_pdf(const Drawing& drawing) {
    const report::Model model = report::build({drawing.document, drawing.evaluation, drawing.layout});
    const output::Metadata metadata{.title = model.title, .author = model.author, .subject = model.subject, .keywords = "", .created = model.created};
    return output::pdf(page::lay_out(model, {drawing.layout, drawing.shaper}), metadata, drawing.shaper);
}

}  // namespace wayfolio::job
