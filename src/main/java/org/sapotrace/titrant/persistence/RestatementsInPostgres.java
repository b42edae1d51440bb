package org.sapotrace.titrant.persistence;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.titrant.Restatement;
import org.sapotrace.titrant.Restatements;

@ApplicationScoped
class RestatementsInPostgres
    implements Restatements, PanacheRepositoryBase<RestatementEntity, UUID> {

  private final ObjectMapper json;
  private final Ledger ledger;

  RestatementsInPostgres(ObjectMapper json, Ledger ledger) {
    this.json = json;
    this.ledger = ledger;
  }

  @Override
  public void add(UUID stream, Restatement restatement) {
    RestatementEntity entity = new RestatementEntity();
    entity.id = restatement.id();
    entity.lot = restatement.lot();
    entity.sampledFrom = restatement.from();
    entity.reason = restatement.reason();
    entity.recordedAt = restatement.recordedAt();
    entity.outcome = json.valueToTree(restatement).toString();
    persist(entity);
    ledger.enter(stream, Act.LOT_RESTATED, restatement.id().toString(), restatement);
  }

  @Override
  public Optional<Restatement> restatement(String lot, UUID id) {
    return findByIdOptional(id).filter(entity -> entity.lot.equals(lot)).map(this::toRestatement);
  }

  @Override
  public List<Restatement> ofLot(String lot, @Nullable UUID after, int most) {
    Sort inOrder = Sort.by("id");
    var found =
        after == null
            ? find("lot = :lot", inOrder, Map.of("lot", lot))
            : find("lot = :lot and id > :after", inOrder, Map.of("lot", lot, "after", after));
    return found.page(0, most).list().stream().map(this::toRestatement).toList();
  }

  private Restatement toRestatement(RestatementEntity entity) {
    try {
      return json.readValue(entity.outcome, Restatement.class);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("A stored restatement cannot be read", defect);
    }
  }
}
