#include "ui/findings/publish_panel.h"

#include <QCheckBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QVBoxLayout>

#include "core/publish/credits.h"
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

QLineEdit* creditField(QLineEdit* field, const char* name, const QString& example,
                       const QString& tip) {
    field->setObjectName(QLatin1String{name});
    field->setPlaceholderText(example);
    field->setToolTip(tip);
    return field;
}

}  // namespace

PublishPanel::PublishPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_jobs{jobs},
      m_blind{new QCheckBox{QStringLiteral("&Hide the names of the hitters")}},
      m_films{new QCheckBox{QStringLiteral("A slow &film of each shot, turns counted")}},
      m_author{new QLineEdit},
      m_licence{new QLineEdit},
      m_citeAs{new QLineEdit},
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
    auto* credits = new QFormLayout;
    credits->addRow(QStringLiteral("A&uthor"),
                    creditField(m_author, "author", QStringLiteral("who answers for the findings"),
                                QStringLiteral("Stands on the page and in the tables (Alt+U)")));
    credits->addRow(QStringLiteral("&Licence"),
                    creditField(m_licence, "licence", QStringLiteral("for example: CC BY 4.0"),
                                QStringLiteral("On what terms others may use the files (Alt+L)")));
    credits->addRow(
        QStringLiteral("&Cite as"),
        creditField(m_citeAs, "cite_as", QStringLiteral("for example: Club tests, May 2026"),
                    QStringLiteral("How others name this publication (Alt+C)")));
    layout->addLayout(credits);
    for (auto* field : {m_author, m_licence, m_citeAs}) {
        field->setMaximumWidth(field->fontMetrics().averageCharWidth() * 60);
        connect(field, &QLineEdit::editingFinished, this, &PublishPanel::keepCredits);
    }
    m_listening = m_store.listen([this](const core::project::Store::Change&) { showCredits(); });
    showCredits();
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

void PublishPanel::showCredits() {
    const auto credits = core::publish::creditsOf(*m_store.snapshot());
    const auto fill = [](QLineEdit* field, const std::string& text) {
        if (!field->isModified()) {
            field->setText(QString::fromStdString(text));
        }
    };
    fill(m_author, credits.author);
    fill(m_licence, credits.licence);
    fill(m_citeAs, credits.citeAs);
}

void PublishPanel::keepCredits() {
    if (!m_author->isModified() && !m_licence->isModified() && !m_citeAs->isModified()) {
        return;
    }
    const auto kept = core::publish::keepCredits(
        m_store, {m_author->text().toStdString(), m_licence->text().toStdString(),
                  m_citeAs->text().toStdString()});
    if (!kept) {
        say(QString::fromStdString(kept.error().message));
        return;
    }
    for (auto* field : {m_author, m_licence, m_citeAs}) {
        field->setModified(false);
    }
    showCredits();
}

void PublishPanel::publishTo(const QString& folder) {
    keepCredits();
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
