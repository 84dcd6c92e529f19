// The shipped substances, read as the program reads them.
#pragma once

#include "core/figure/reference.h"

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace brimful::test {

inline std::string shippedText(const std::string& name)
{
    std::string path = BRIMFUL_SOURCE_DIR "/rules/reference/";
    std::ifstream file(path += name);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline const gas::SubstanceTable& shipped()
{
    static const gas::SubstanceTable table = [] {
        auto read = figure::shippedSubstances(shippedText("substances.json"));
        if (!read) {
            throw std::runtime_error(read.error().path);
        }
        return std::move(*read);
    }();
    return table;
}

inline figure::Reference shippedReference() { return {&shipped()}; }

} // namespace brimful::test
