package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.productline.Line;

/** Lots that are standardised anew while a signal goes on. */
class LotsTest {

  private static final Instant CHANGE = Instant.parse("2026-03-10T00:00:00Z");
  private static final Line LINE =
      new Line("sodium", "Sodium line", Alkali.SODIUM, null, null, null, 1);

  // Found 5 % weaker on the second day behind the change, and used so from then on.
  private final RecordedResult before = titrated(-1, new UsedTitrant("hcl", 0.0100, 2e-5, false));
  private final RecordedResult first = titrated(1, new UsedTitrant("hcl", 0.0100, 2e-5, false));
  private final RecordedResult later = titrated(2, new UsedTitrant("hcl", 0.0095, 2e-5, false));
  private final RecordedResult restated = titrated(3, new UsedTitrant("hcl", 0.0096, 2e-5, true));
  private final RecordedResult typed = titrated(4, null);
  private final Lots lots = Lots.of(List.of(later, typed, first, restated, before), CHANGE);

  @Test
  void areComparedByWhatTheyWereFirstTakenForBehindTheChange() {
    assertThat(lots.takenFor()).isEqualTo(Map.of("hcl", 0.0100));
    assertThat(lots.offBasis(before)).isZero();
    assertThat(lots.offBasis(first)).isZero();
    assertThat(lots.offBasis(later)).isCloseTo(Math.log(0.95), within(1e-12));
  }

  @Test
  void moveNoResultThatWasRestated() {
    assertThat(lots.offBasis(restated)).isZero();
    assertThat(Lots.moving(restated, LINE)).isEmpty();
    assertThat(Lots.moving(later, LINE)).isEqualTo(Result.titratedWith("hcl"));
  }

  @Test
  void areOneOfALineWhereNoneIsOnRecord() {
    assertThat(Lots.moving(typed, LINE)).hasSize(1).doesNotContainKey("hcl");
    assertThat(Lots.moving(typed, LINE).keySet()).noneMatch(Lots::isLot);
    assertThat(lots.offBasis(typed)).isZero();
  }

  @Test
  void cancelInARatioOnlyWhereTheyAreTheSame() {
    Map<String, Integer> own = Result.titratedWith("hcl");
    assertThat(Result.ratio(own, own)).isEmpty();
    assertThat(Result.ratio(own, Result.titratedWith("other")))
        .isEqualTo(Map.of("hcl", 1, "other", -1));
    assertThat(Result.ratio(own, Map.of())).isEqualTo(own);
  }

  private static RecordedResult titrated(int day, UsedTitrant titrant) {
    Instant at = CHANGE.plusSeconds(day * 86_400L);
    UUID id = new UUID(0, day + 10);
    Figure figure =
        new Figure(
            40, "mg/kg", null, null, null, null, List.of(40.0), null, List.of(), null, null, null);
    RecordedResult.Revision only =
        new RecordedResult.Revision(
            1,
            at,
            null,
            false,
            new BatchRemoval("K-1", at, id, id),
            new Assessment(figure, false, null, titrant, List.of()));
    return new RecordedResult(id, id, "K-1", at, List.of(only));
  }
}
