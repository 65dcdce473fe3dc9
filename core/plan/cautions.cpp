#include "core/plan/cautions.h"

namespace core::plan {

const std::vector<std::string>& filmingCautions() {
    static const std::vector<std::string> kCautions{
        "A struck ball injures. Nobody stands in the line of flight; the camera and its operator "
        "are behind a net or a screen; whoever is near wears eye protection.",
        "Repeated full swings injure the hitter. Keep to the rests; pain means stop.", rigCaution(),
        "Follow the rules of the place and the advice of a licensed coach or clinician."};
    return kCautions;
}

const std::string& rigCaution() {
    static const std::string kCaution{
        "A spinning rig used to check the clock (drill, turntable) is clamped and guarded."};
    return kCaution;
}

}  // namespace core::plan
