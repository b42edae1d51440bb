package org.sapotrace.titrant;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.StandardReadings;
import org.sapotrace.bench.StandardisedTitrant;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.chemistry.StrengthHistory;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Keeps the titrant lots and records their standardisations. */
@ApplicationScoped
@Transactional
public class Titrants {

  /**
   * A standardisation on record.
   *
   * @param changeSinceLast its normality less that of the standardisation before it in time, in
   *     mol/L; null where there is none, or where it was withdrawn
   */
  public record Standardised(RecordedResult result, @Nullable Double changeSinceLast) {}

  private final Lots lots;
  private final ProductLines productLines;
  private final Bench bench;
  private final Results results;
  private final Restatements restatements;
  private final ToleranceWatch tolerance;

  Titrants(
      Lots lots,
      ProductLines productLines,
      Bench bench,
      Results results,
      Restatements restatements,
      ToleranceWatch tolerance) {
    this.lots = lots;
    this.productLines = productLines;
    this.bench = bench;
    this.results = results;
    this.restatements = restatements;
    this.tolerance = tolerance;
  }

  /**
   * Creates or replaces a lot.
   *
   * @param precondition is shown the lot as it stands, null where there is none, and throws where
   *     the caller wants nothing changed
   */
  public ProductLines.Put<TitrantLot> put(
      LotDeclaration declared, Consumer<@Nullable TitrantLot> precondition) {
    productLines.requireEveryLine();
    TitrantLot current = lots.lock(declared.slug()).orElse(null);
    precondition.accept(current);
    if (current != null && current.declared().equals(declared)) {
      return new ProductLines.Put<>(current, false);
    }
    if (current != null && !current.declared().isTheSameTitrantAs(declared)) {
      refuseIfUsed(current);
    }
    Stream strength =
        productLines.putUnderNoLine(
            declared.slug(),
            "Strength of " + declared.slug(),
            Measurand.TITRANT_STRENGTH,
            declared.tolerance());
    TitrantLot next =
        new TitrantLot(declared, strength.id(), current == null ? 1 : current.version() + 1);
    lots.save(next);
    return new ProductLines.Put<>(next, current == null);
  }

  private void refuseIfUsed(TitrantLot lot) {
    String slug = lot.declared().slug();
    boolean isStandardised =
        !results.select(lot.stream(), new Results.Selection(null, null, null), 1).isEmpty();
    if (isStandardised || results.anyTitratedWith(slug)) {
      throw Refusal.conflict(
          "Lot %s has been %s and keeps its reagent and nominal normality: figures on record count with them. Define a new lot instead."
              .formatted(slug, isStandardised ? "standardised" : "titrated with"));
    }
  }

  public TitrantLot lot(String slug) {
    return lots.lot(slug)
        .orElseThrow(() -> Refusal.unknown("There is no titrant lot %s.".formatted(slug)));
  }

  public List<TitrantLot> lotsAfter(String slugExclusive, int most) {
    return lots.after(slugExclusive, most);
  }

  /**
   * Records a standardisation of a lot.
   *
   * @throws Refusal if it cannot be true, or cannot be one of this lot
   */
  public Standardised standardise(String slug, Instant performedAt, StandardReadings readings) {
    productLines.requireEveryLine();
    lots.hold(slug);
    TitrantLot lot = lot(slug);
    Refusal.at(
        "#/standard",
        () -> {
          readings.standard().checkSuits(lot.declared().reagent());
          return lot;
        });
    StrengthHistory before = KnownLot.of(lot, results).history();
    RecordedResult recorded =
        bench
            .record(
                lot.stream(),
                new StandardisedTitrant(slug, performedAt, readings),
                lot.declared().reagent(),
                found -> judged(lot, performedAt, found))
            .result();
    tolerance.tell(lot, before, recorded.id());
    return standardised(recorded, before(lot, recorded));
  }

  private Assessment judged(TitrantLot lot, Instant performedAt, Assessment found) {
    DatedStrength last = KnownLot.of(lot, results).history().latest(performedAt).orElse(null);
    return found.withCautions(
        StandardisationCheck.cautions(lot.declared(), performedAt, found.result().value(), last));
  }

  /** The last standardisation that counts and comes before another in their order. */
  private @Nullable RecordedResult before(TitrantLot lot, RecordedResult other) {
    Results.Selection upToIt = new Results.Selection(null, other.sampledAt(), null);
    return results.select(lot.stream(), upToIt, Integer.MAX_VALUE).stream()
        .takeWhile(each -> !each.id().equals(other.id()))
        .filter(each -> !each.latest().withdrawn())
        .reduce((earlier, later) -> later)
        .orElse(null);
  }

  private static Standardised standardised(RecordedResult result, @Nullable RecordedResult before) {
    return before == null || result.latest().withdrawn()
        ? new Standardised(result, null)
        : new Standardised(result, value(result) - value(before));
  }

  private static double value(RecordedResult result) {
    return result.latest().assessment().result().value();
  }

  /** Standardisations of a lot in the order in which they were performed, then recorded. */
  public List<Standardised> standardisations(String slug, Results.@Nullable Place after, int most) {
    TitrantLot lot = lot(slug);
    List<RecordedResult> page =
        results.select(lot.stream(), new Results.Selection(null, null, after), most);
    RecordedResult before = page.isEmpty() ? null : before(lot, page.get(0));
    List<Standardised> standardised = new ArrayList<>();
    for (RecordedResult each : page) {
      standardised.add(standardised(each, before));
      before = each.latest().withdrawn() ? before : each;
    }
    return standardised;
  }

  /**
   * Whether any standardisation of a lot counts.
   *
   * @throws Refusal if there is no such lot
   */
  boolean isStandardised(String slug) {
    return standardisations(slug, null, Integer.MAX_VALUE).stream()
        .anyMatch(each -> !each.result().latest().withdrawn());
  }

  /** Keeps a restatement of a lot, made with the identifier that it is to have. */
  Restatement keep(String slug, Function<UUID, Restatement> made) {
    UUID stream = lot(slug).stream();
    productLines.lock(stream);
    Restatement restatement = made.apply(productLines.nextIdentifier(stream));
    restatements.add(stream, restatement);
    return restatement;
  }
}
