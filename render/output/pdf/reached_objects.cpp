#include "output/pdf/reached_objects.hpp"

namespace wayfolio::output {

namespace {

class Walk {
public:
    explicit Walk(const ObjectTexts& texts) : texts_(texts) {}

    void visit(Handle object) {
        if (object.isIndirect()) {
            const int number = object.getObjectID();
            if (texts_.contains(number) || !reached.emplace(number, object).second) return;
        }
        if (object.isStream()) object = object.getDict();
        if (object.isDictionary())
            for (const auto& [key, value] : object.ditems()) visit(value);
        else if (object.isArray())
            for (const Handle& item : object.aitems()) visit(item);
    }

    std::map<int, Handle> reached;

private:
    const ObjectTexts& texts_;
};

}  // namespace

std::vector<Handle> reached_objects(QPDF& file, const ObjectTexts& texts) {
    Walk walk(texts);
    for (const char* key : {"/Root", "/Info"}) walk.visit(file.getTrailer().getKey(key));
    std::vector<Handle> objects;
    for (const auto& [number, object] : walk.reached) objects.push_back(object);
    return objects;
}

}  // namespace wayfolio::output
