package org.sapotrace.bench;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Repeatability;

/**
 * What the record says of a stream beside the entry that is assessed.
 *
 * @param interpolatesLots whether a titrant lot counts by interpolation between its
 *     standardisations, and not by the latest before the sample
 * @param pooled how far titrations of the stream have scattered; null where too few sets of
 *     replicates tell
 * @param normalityBefore what the titration before took in mol/L; null where there was none, or it
 *     took a lot on record
 */
record Background(
    boolean interpolatesLots,
    Repeatability.@Nullable Pooled pooled,
    @Nullable Double normalityBefore) {}
