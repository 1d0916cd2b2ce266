#include "output/artifacts.hpp"

#include "output/structure_kids.hpp"
#include "output/tag_names.hpp"

#include <stdexcept>

namespace wayfolio::output {

void drop_artifact(QPDF& file, Handle element) {
    for (Handle& kid : kids_of(element)) {
        if (!kid.isInteger()) throw std::logic_error("an artifact holds something but marked content");
        set_parent(file, element.getKey("/Pg"), kid.getIntValueAsInt(), Handle::newNull());
    }
    remove_from_parent(element);
}

/// Cairo spells marked content in one fixed way, each operator on a line of its own.
void name_artifacts(QPDF& file) {
    const std::string before = "/" + std::string(artifact_tag) + " << /MCID ", after = " >> BDC\n";
    for (Handle page : file.getAllPages()) {
        Handle contents = page.getKey("/Contents");
        const std::shared_ptr<Buffer> data = contents.getStreamData();
        const std::string content(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
        std::string named;
        std::size_t at = 0;
        for (std::size_t found = content.find(before); found != std::string::npos; found = content.find(before, at)) {
            const std::size_t end = content.find(after, found);
            const bool on_own_line =
                found > 0 && content[found - 1] == '\n' && end != std::string::npos && end - found < before.size() + 10;
            named.append(content, at, found - at);
            at = on_own_line ? end + after.size() : found + before.size();
            named += on_own_line ? "/Artifact BMC\n" : before;
        }
        if (at == 0) continue;
        named.append(content, at);
        contents.replaceStreamData(named, Handle::newNull(), Handle::newNull());
    }
}

}  // namespace wayfolio::output
