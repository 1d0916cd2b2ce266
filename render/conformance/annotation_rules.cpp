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
    return leads_to_page(subject, destination);
}

/// Whether the parent tree leads from the annotation to an element of that type which holds it.
bool stands_in(const CheckedFile& subject, Handle annotation, const char* type) {
    Handle tree = subject.root().getKey("/StructTreeRoot").getKey("/ParentTree"), number = annotation.getKey("/StructParent");
    Handle owner = number.isInteger() ? entry_of(subject.file, tree, number.getIntValue()) : Handle::newNull();
    if (!owner.isDictionary() || !owner.getKey("/S").isNameAndEquals(type)) return false;
    Handle kids = owner.getKey("/K");
    for (Handle kid : kids.isArray() ? kids.getArrayAsVector() : std::vector<Handle>{kids})
        if (kid.isDictionary() && kid.getKey("/Obj").getObjGen() == annotation.getObjGen()) return true;
    return false;
}

/// UA-1 7.18.1: what is neither link nor form field stands in an Annot; 7.18.2 and 7.18.8 leave out what nobody reads.
void check_annotation(const CheckedFile& subject, Handle annotation, const std::string& where) {
    for (const char* unread : {"/Link", "/Popup", "/PrinterMark"})
        if (annotation.getKey("/Subtype").isNameAndEquals(unread)) return;
    const char* const type = annotation.getKey("/Subtype").isNameAndEquals("/Widget") ? "/Form" : "/Annot";
    if (!stands_in(subject, annotation, type))
        subject.fault("annotation-structure", where, std::string("stands in no element ") + (type + 1));
}

void check_link(const CheckedFile& subject, Handle link, const std::string& where) {
    if (!link.getKey("/Contents").isString() || link.getKey("/Contents").getUTF8Value().empty())
        subject.fault("link-description", where, "no /Contents");
    if (!leads_somewhere(subject, link)) subject.fault("link-target", where, "leads to no page and no address");
    if (!stands_in(subject, link, "/Link")) subject.fault("link-structure", where, "stands in no Link element that holds it");
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
            check_annotation(subject, annotation, where);
            if (annotation.getKey("/Subtype").isNameAndEquals("/Link")) check_link(subject, annotation, where);
        }
    }
}

}  // namespace wayfolio::conformance
