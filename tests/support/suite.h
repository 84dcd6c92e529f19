// A test class registers itself here; the one main of each test program runs them all.
#pragma once

#include <QObject>
#include <functional>
#include <memory>
#include <vector>

namespace brimful::test {

using MakeSuite = std::function<std::unique_ptr<QObject>()>;

inline std::vector<MakeSuite>& suites()
{
    static std::vector<MakeSuite> all;
    return all;
}

template <class T> struct Registered {
    Registered()
    {
        suites().push_back([] { return std::make_unique<T>(); });
    }
};

// Whether a limit on time means something here: not under a sanitizer, not with a slower part put in to compare with.
inline bool timed() { return !qEnvironmentVariableIsSet("BRIMFUL_UNTIMED"); }

} // namespace brimful::test

#define BRIMFUL_SUITE(Class) static const brimful::test::Registered<Class> registered_##Class
