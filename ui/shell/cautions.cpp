#include "ui/shell/cautions.h"

namespace ui::shell {

QString cautionsText() {
    return QStringLiteral(
        "A struck ball injures. Nobody stands in the line of flight; the camera and its operator "
        "are behind a "
        "net or a screen; whoever is near wears eye protection.\n"
        "A spinning rig used to check the clock (drill, turntable) is clamped and guarded.\n"
        "Repeated full swings injure the hitter: plan rest, and stop at pain.\n"
        "Follow the rules of the place and the advice of a licensed coach or clinician.\n"
        "A table made with this program describes the specimens and hitters that were filmed; "
        "whether an implement "
        "is legal to play with is for the governing body to say.");
}

}  // namespace ui::shell
