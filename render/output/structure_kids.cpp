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
    if (kept.getArrayNItems() == 0) parent.removeKey("/K");
    else parent.replaceKey("/K", kept);
}

void move_kids(Handle from, Handle to) {
    Handle all = Handle::newArray();
    for (Handle& kid : kids_of(to)) all.appendItem(kid);
    for (Handle& kid : kids_of(from)) {
        if (!kid.isDictionary() || !kid.hasKey("/S")) throw std::logic_error("an element that continues over pages holds text of its own: put it into a group");
        kid.replaceKey("/P", to);
        all.appendItem(kid);
    }
    to.replaceKey("/K", all);
    remove_from_parent(from);
}

}  // namespace wayfolio::output
