#include "output/structure_kids.hpp"

#include <stdexcept>

namespace wayfolio::output {

std::vector<Handle> kids_of(Handle element) {
    Handle kids = element.getKey("/K");
    if (kids.isArray()) return kids.getArrayAsVector();
    if (kids.isNull()) return {};
    return {kids};
}

std::vector<Handle> element_kids(Handle element) {
    std::vector<Handle> elements;
    for (Handle& kid : kids_of(element))
        if (kid.isDictionary() && kid.hasKey("/S")) elements.push_back(kid);
    return elements;
}

void remove_from_parent(Handle element) {
    Handle parent = element.getKey("/P");
    Handle kept = Handle::newArray();
    for (Handle& kid : kids_of(parent))
        if (!(kid.isIndirect() && kid.getObjGen() == element.getObjGen())) kept.appendItem(kid);
    if (kept.getArrayNItems() == 0)
        parent.removeKey("/K");
    else
        parent.replaceKey("/K", kept);
}

void set_parent(QPDF& file, Handle page, int number, Handle parent) {
    Handle tree = file.getRoot().getKey("/StructTreeRoot").getKey("/ParentTree"), parents;
    const long long key = page.getKey("/StructParents").getIntValue();
    if (!QPDFNumberTreeObjectHelper(tree, file).findObject(key, parents))
        throw std::logic_error("a page has no parents in the structure tree");
    parents.setArrayItem(number, parent);
}

void move_kids(QPDF& file, Handle from, Handle to) {
    Handle all = Handle::newArray(), page = from.getKey("/Pg");
    for (Handle& kid : kids_of(to)) all.appendItem(kid);
    for (Handle& kid : kids_of(from)) {
        if (kid.isInteger()) {
            set_parent(file, page, kid.getIntValueAsInt(), to);
            Handle reference = Handle::parse("<< /Type /MCR >>");
            reference.replaceKey("/Pg", page);
            reference.replaceKey("/MCID", kid);
            all.appendItem(reference);
            continue;
        }
        if (kid.hasKey("/S")) kid.replaceKey("/P", to);
        all.appendItem(kid);
    }
    to.replaceKey("/K", all);
    remove_from_parent(from);
}

}  // namespace wayfolio::output
