package org.sapotrace.titrant;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;

/**
 * A standardisation found a lot outside its tolerance, or on its way out of it before the next
 * standardisation is due. Fired in the transaction that records it.
 *
 * @param stream of the lot's strength
 * @param normality of the last standardisation, in mol/L
 * @param tolerance in mol/L
 * @param on the day on which the line through the standardisations leaves it; null where the last
 *     one lies outside
 */
public record LeavingTolerance(
    String lot,
    UUID stream,
    UUID standardisation,
    double normality,
    Specification tolerance,
    @Nullable LocalDate on) {}
