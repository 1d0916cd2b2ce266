#include "conformance/checked_file.hpp"

namespace wayfolio::conformance {

namespace {

/// Bits of an annotation's flags (ISO 32000-1, table 165).
constexpr long long invisible = 1, hidden = 2, print = 4, no_view = 32;

bool leads_somewhere(const CheckedFile& subject, Handle link) {
    Handle action = link.getKey("/A");
    if (action.isDictionary() && action.getKey("/S").isNameAndEquals("/URI"))
        return action.getKey("/URI").isString() && !action.getKey("/URI").getStringValue().empty();
    Handle destination = action.isDictionary() ? action.getKey("/D") : link.getKey("/Dest");
    if (destination.isString() || destination.isName()) destination = named_destination(subject, destination);
    return leads_to_page(subject.file, destination);
}

void check_link(const CheckedFile& subject, Handle link, const std::string& where) {
    if (!link.getKey("/Contents").isString() || link.getKey("/Contents").getUTF8Value().empty())
        subject.fault("link-description", where, "no /Contents");
    if (!leads_somewhere(subject, link)) subject.fault("link-target", where, "leads to no page and no address");
    Handle tree = subject.root().getKey("/StructTreeRoot").getKey("/ParentTree");
    Handle owner = link.getKey("/StructParent").isInteger() ? entry_of(subject.file, tree, link.getKey("/StructParent").getIntValue())
                                                            : Handle::newNull();
    if (!owner.isDictionary() || !owner.getKey("/S").isNameAndEquals("/Link"))
        return subject.fault("link-structure", where, "stands in no Link element");
    Handle kids = owner.getKey("/K");
    for (Handle kid : kids.isArray() ? kids.getArrayAsVector() : std::vector<Handle>{kids})
        if (kid.isDictionary() && kid.getKey("/Obj").getObjGen() == link.getObjGen()) return;
    subject.fault("link-structure", where, "its Link element does not hold it");
}

}  // namespace

void check_annotations(const CheckedFile& subject) {
    int number = 0;
    for (Handle page : subject.file.getAllPages()) {
        const std::string name = "page " + std::to_string(++number);
        Handle annotations = page.getKey("/Annots");
        if (!annotations.isArray() || annotations.getArrayNItems() == 0) continue;
        if (!page.getKey("/Tabs").isNameAndEquals("/S")) subject.fault("page-tabs", name, "/Tabs is not /S");
        int place = 0;
        for (Handle annotation : annotations.getArrayAsVector()) {
            const std::string where = name + ", annotation " + std::to_string(++place);
            const long long flags = annotation.getKey("/F").isInteger() ? annotation.getKey("/F").getIntValue() : 0;
            if ((flags & print) == 0 || (flags & (invisible | hidden | no_view)) != 0)
                subject.fault("annotation-flags", where, "hidden or not printed");
            if (annotation.getKey("/Subtype").isNameAndEquals("/Link")) check_link(subject, annotation, where);
        }
    }
}

}  // namespace wayfolio::conformance
