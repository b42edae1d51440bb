package org.sapotrace.review;

import java.util.List;
import org.sapotrace.titrant.Restatement;
import org.sapotrace.titrant.TitrantLot;
import org.sapotrace.titrant.Titrants;

/**
 * What is on record of a titrant lot that results of a period count with.
 *
 * @param standardisations of the period, and the last before and the first behind it, between which
 *     strength is interpolated
 * @param restatements that changed results of the period
 */
record LotReview(
    TitrantLot lot, List<Titrants.Standardised> standardisations, List<Restatement> restatements) {}
