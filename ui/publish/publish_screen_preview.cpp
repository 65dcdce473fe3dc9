#include <QCheckBox>
#include <QLabel>
#include <algorithm>
#include <utility>

#include "ui/publish/page_preview.h"
#include "ui/publish/publish_screen.h"

/// What would be written now, in small.
namespace ui::publish {

using core::publish::Films;
using core::publish::Preview;

core::publish::PublishOptions PublishScreen::options() const {
    core::publish::PublishOptions options;
    options.blindHitters = m_blind->isChecked();
    options.films = m_films->isChecked() ? Films::OneAShot : Films::None;
    options.publishedOn = core::publish::today();
    if (m_doubts && m_doubts->revision == m_store.snapshot()->revision) {
        options.findDoubts = [doubts = m_doubts](const core::findings::Findings&) {
            return core::Result<core::publish::OpenDoubts>{core::publish::openDoubtsOf(*doubts)};
        };
    }
    return options;
}

void PublishScreen::setFindings(core::findings::FindingsPtr findings) {
    m_findings = std::move(findings);
}

void PublishScreen::refreshPreview() {
    const auto snapshot = m_store.snapshot();
    const bool hasKept = std::any_of(
        snapshot->shots.begin(), snapshot->shots.end(),
        [](const auto& shot) { return shot.standing == core::project::ShotStanding::Kept; });
    if (!hasKept) {
        m_previewed = {};
        m_files->clear();
        m_preview->say(tr("The first kept shot gives the page something to say."));
        return;
    }
    if (!isVisible() || !m_doubts || m_doubts->revision != snapshot->revision) {
        if (m_previewed == Previewed{}) {
            m_preview->say(tr("The page is being prepared."));
        }
        return;  // the doubts lead here again
    }
    const Previewed wanted{m_doubts, m_blind->isChecked(), m_films->isChecked()};
    if (wanted == m_previewed) {
        return;
    }
    auto material = core::publish::gather(m_store, Films::None);
    if (!material) {
        m_preview->say(QString::fromStdString(material.error().message));
        return;
    }
    m_previewed = wanted;
    if (m_previewing) {
        m_jobs.cancel(*m_previewing);
    }
    m_previewing = m_jobs.start<Preview>(
        tr("Preparing the page"),
        [material = std::move(material).value(), options = options(),
         known = m_findings](bridge::JobContext& context) {
            return core::publish::previewOf(material, options, known.get(), context.stopToken());
        },
        this,
        [this, wanted](const core::Result<Preview>& preview) {
            if (wanted == m_previewed) {
                m_previewing.reset();
                showPreview(preview);
            }
        },
        bridge::JobRunner::Priority::Looked);
}

void PublishScreen::showPreview(const core::Result<Preview>& preview) {
    if (!preview) {
        m_previewed = {};
        m_preview->say(QString::fromStdString(preview.error().message));
        return;
    }
    QStringList names;
    for (const auto& file : preview.value().files) {
        names << QString::fromStdString(file);
    }
    m_files->setText(PagePreview::filesText(preview.value()));
    m_files->setToolTip(names.join(QLatin1Char('\n')));
    m_preview->show(preview.value());
}

}  // namespace ui::publish
