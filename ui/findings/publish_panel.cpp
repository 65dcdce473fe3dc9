#include "ui/findings/publish_panel.h"

#include <QCheckBox>
#include <QFileDialog>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QVBoxLayout>

#include "core/publish/publish.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"

namespace ui::findings {

using core::publish::Films;
using core::publish::Published;

namespace {

const QString kBlindSetting = QStringLiteral("publish/hide_hitters");
const QString kFilmsSetting = QStringLiteral("publish/films");
const QString kFolderSetting = QStringLiteral("publish/folder");

QString writtenText(const QString& folder, const Published& published) {
    QString text = QStringLiteral("Published into %1: open index.html there.").arg(folder);
    for (const auto& remark : published.remarks) {
        text += QLatin1Char('\n') + QString::fromStdString(remark);
    }
    return text;
}

}  // namespace

PublishPanel::PublishPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_jobs{jobs},
      m_blind{new QCheckBox{QStringLiteral("&Hide the names of the hitters")}},
      m_films{new QCheckBox{QStringLiteral("A slow &film of each shot, turns counted")}},
      m_publish{new QPushButton{QStringLiteral("Publish into a folder…")}},
      m_words{new QLabel} {
    auto* what = new QLabel{QStringLiteral(
        "Writes what others need to follow and check the findings: a page that any browser shows, "
        "a PDF, a workbook, the tables as CSV with a description of their columns, and every "
        "figure as SVG and PNG. Files of others in the folder are left alone.")};
    what->setWordWrap(true);
    m_blind->setToolTip(QStringLiteral("H1, H2 … stand for them in every file (Alt+H)"));
    m_films->setToolTip(QStringLiteral("MP4; takes a few seconds a shot (Alt+F)"));
    m_publish->setObjectName(QStringLiteral("publish"));
    style::setRank(m_publish, style::Rank::Primary);
    m_publish->setToolTip(QStringLiteral("Asks for the folder (Ctrl+P)"));
    m_publish->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_P});
    m_words->setObjectName(QStringLiteral("published"));
    style::showPlainWords(m_words);
    m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
    const QSettings settings;
    m_blind->setChecked(settings.value(kBlindSetting).toBool());
    m_films->setChecked(settings.value(kFilmsSetting).toBool());
    connect(m_blind, &QCheckBox::toggled, this,
            [](bool on) { QSettings{}.setValue(kBlindSetting, on); });
    connect(m_films, &QCheckBox::toggled, this,
            [](bool on) { QSettings{}.setValue(kFilmsSetting, on); });
    connect(m_publish, &QPushButton::clicked, this, &PublishPanel::choose);
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(what);
    layout->addWidget(m_blind);
    layout->addWidget(m_films);
    layout->addWidget(m_publish, 0, Qt::AlignLeft);
    layout->addWidget(m_words);
    layout->addStretch();
}

void PublishPanel::choose() {
    const QString folder =
        QFileDialog::getExistingDirectory(this, QStringLiteral("Folder to publish into"),
                                          QSettings{}.value(kFolderSetting).toString());
    if (!folder.isEmpty()) {
        QSettings{}.setValue(kFolderSetting, folder);
        publishTo(folder);
    }
}

void PublishPanel::publishTo(const QString& folder) {
    core::publish::PublishOptions options;
    options.blindHitters = m_blind->isChecked();
    options.films = m_films->isChecked() ? Films::OneAShot : Films::None;
    options.publishedOn = core::publish::today();
    auto material = core::publish::gather(m_store, options.films);
    if (!material) {
        say(QString::fromStdString(material.error().message));
        return;
    }
    if (m_doubts && m_doubts->revision == material.value().snapshot->revision) {
        options.findDoubts = [doubts = m_doubts](const core::findings::Findings&) {
            return core::Result<core::publish::OpenDoubts>{core::publish::openDoubtsOf(*doubts)};
        };
    }
    m_publish->setEnabled(false);
    m_jobs.start<Published>(
        QStringLiteral("Publishing"),
        [material = std::move(material).value(), options,
         path = std::filesystem::path{folder.toStdString()}](bridge::JobContext& context) {
            return core::publish::publish(material, path, options, context.stopToken(),
                                          [&context](double share, const std::string& doing) {
                                              context.report(share, QString::fromStdString(doing));
                                          });
        },
        this,
        [this, folder](const core::Result<Published>& published) {
            m_publish->setEnabled(true);
            say(published ? writtenText(folder, published.value())
                          : QString::fromStdString(published.error().message));
        });
}

void PublishPanel::say(const QString& text) {
    m_words->setText(text);
    Q_EMIT said(text);
}

}  // namespace ui::findings
