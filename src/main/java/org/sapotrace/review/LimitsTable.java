package org.sapotrace.review;

import static org.sapotrace.chartimage.Block.Table.Column.number;
import static org.sapotrace.chartimage.Block.Table.Column.words;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.sapotrace.chartimage.Block;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.monitoring.JudgedPoint;
import org.sapotrace.monitoring.Judgement;
import org.sapotrace.monitoring.LimitsRevision;

/** The limits that judged the results of a period: who laid them down, from what, and why. */
record LimitsTable(StreamReview review) {

  List<Block> blocks() {
    Block heading = new Block.Heading(2, "Control limits");
    List<LimitsRevision> judging = judging();
    if (judging.isEmpty()) {
      return List.of(
          heading,
          new Block.Paragraph(
              review.chart().limits().isEmpty()
                  ? "No limits were adopted, and the service has no trial limits yet: nothing judged these results."
                  : "The limits on record hold at other times: nothing judged these results."));
    }
    boolean adopted =
        judging.stream().anyMatch(each -> each.status() == LimitsRevision.Status.ADOPTED);
    Block table =
        new Block.Table(
            List.of(
                words("Revision", 16),
                words("In force from", 16),
                number("Centre", 13),
                number("Sigma", 13),
                number("Lower", 13),
                number("Upper", 13),
                words("From", 24),
                words("By, and why", 32)),
            judging.stream().map(this::row).toList());
    return adopted
        ? List.of(heading, table)
        : List.of(heading, new Block.Paragraph("No limits were adopted."), table);
  }

  /** The revisions that judged points of the period, in order. */
  private List<LimitsRevision> judging() {
    Set<Integer> judged =
        review.chart().points().stream()
            .map(JudgedPoint::judgement)
            .filter(Objects::nonNull)
            .map(Judgement::limitsRevision)
            .collect(Collectors.toSet());
    return review.chart().limits().stream()
        .filter(limits -> judged.contains(limits.revision()))
        .toList();
  }

  private List<String> row(LimitsRevision revision) {
    ControlLimits limits = revision.usualLimits();
    return List.of(
        "%d, %s".formatted(revision.revision(), revision.status().id()),
        revision.effectiveFrom() == null
            ? "the first result"
            : Words.time(revision.effectiveFrom()),
        Words.number(revision.shown((Double) limits.centre())),
        Words.number(revision.limits().sigma())
            + (revision.plotting().lambda() == null ? "" : " on its scale"),
        Words.number(revision.shown(limits.lower())),
        Words.number(revision.shown((Double) limits.upper())),
        origin(revision),
        why(revision));
  }

  private static String origin(LimitsRevision revision) {
    LimitsRevision.Baseline baseline = revision.baseline();
    String scale =
        revision.plotting().scale() == Scale.LINEAR
            ? ""
            : ", on a %s scale".formatted(revision.plotting().scale().id());
    String excluded =
        revision.excluded().isEmpty()
            ? ""
            : "; left out: "
                + revision.excluded().stream()
                    .map(each -> each.cause())
                    .collect(Collectors.joining("; "));
    return baseline == null
        ? "given" + scale
        : "%s, %s to %s%s%s"
            .formatted(
                Words.count(baseline.n(), "result"),
                Words.day(baseline.from()),
                Words.day(baseline.to()),
                scale,
                excluded);
  }

  /** Who stands behind limits, and why; those of a new phase or other rules are as they were. */
  private String why(LimitsRevision revision) {
    String told = "%s, %s: ".formatted(by(revision), Words.time(revision.adoptedAt()));
    return switch (revision.origin()) {
      case SETTINGS -> told + "the chart's settings were changed" + as(revision);
      case PHASE -> told + "a new phase began" + as(revision);
      case PLANNED -> told + "estimated once more, as planned";
      case BASELINE, GIVEN ->
          told + Objects.requireNonNullElse(revision.reason(), "no reason was given");
    };
  }

  private String by(LimitsRevision revision) {
    return revision.status() == LimitsRevision.Status.ADOPTED
        ? review.adopter(revision.revision())
        : "the service";
  }

  /** The revision whose limits these are. */
  private String as(LimitsRevision again) {
    return review.chart().limits().stream()
        .filter(each -> each.revision() < again.revision())
        .filter(each -> each.origin() != LimitsRevision.Origin.SETTINGS)
        .filter(each -> each.origin() != LimitsRevision.Origin.PHASE)
        .reduce((earlier, later) -> later)
        .map(each -> "; as revision %d (%s)".formatted(each.revision(), why(each)))
        .orElse("");
  }
}
