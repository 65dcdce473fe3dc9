#include "core/plan/cautions.h"

#include "core/base/words.h"

namespace core::plan {

std::string cautionsHeading() {
    return said("Before anybody swings");
}

std::vector<std::string> filmingCautions() {
    return {said("A struck ball injures. Nobody stands in the line of flight; the camera and its "
                 "operator are behind a net or a screen; whoever is near wears eye protection."),
            said("Repeated full swings injure the hitter. Keep to the rests; pain means stop."),
            rigCaution(),
            said("Follow the rules of the place and the advice of a licensed coach or clinician.")};
}

std::string rigCaution() {
    return said(
        "A spinning rig used to check the clock (drill, turntable) is clamped and guarded.");
}

}  // namespace core::plan
