//! Many families of hypotheses tested together, with weights and an order stated before looking.
//!
//! Sequentially rejective graph of Bretz, Maurer, Brannath & Posch (2009, Stat. Med. 28:586) with families for nodes: a
//! node holds a share of alpha and tests its family at it, by p-values that are adjusted within the family; when it rejects
//! its whole family its share passes on along the transitions. Until the first false rejection only families without a true
//! hypothesis have passed anything on, and shares only grow with what is passed on, so the families that hold true
//! hypotheses have shares that add up to alpha at most: any false rejection has probability alpha at most, whatever the
//! families have in common.

/// A family of hypotheses.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Its share of alpha at the start. Shares add up to 1 at most.
    pub weight: f64,
    /// p-values adjusted within the family.
    pub p_values: Vec<f64>,
    /// Whether it passes its share on when all its hypotheses are rejected.
    pub passes: bool,
    /// The part of its share that goes to each node, by index. They add up to 1 at most.
    pub transitions: Vec<f64>,
}

/// What the procedure comes to for a family.
#[derive(Debug, Clone, PartialEq)]
pub struct NodeResult {
    /// The level at which its p-values are judged in the end.
    pub level: f64,
    /// p-values adjusted for all families: rejected at alpha where they are below it.
    pub p_adjusted: Vec<f64>,
}

/// Tests all families at `alpha`.
pub fn test_families(nodes: &[Node], alpha: f64) -> Vec<NodeResult> {
    let mut graph = Graph::new(nodes);
    let result = |n: &Node| NodeResult { level: alpha * n.weight, p_adjusted: vec![1.0; n.p_values.len()] };
    let mut results: Vec<NodeResult> = nodes.iter().map(result).collect();
    let mut reached = 0.0_f64;
    loop {
        for (i, node) in nodes.iter().enumerate().filter(|(i, _)| graph.active[*i]) {
            for (p, adjusted) in node.p_values.iter().zip(&mut results[i].p_adjusted) {
                *adjusted = adjusted.min(reached.max(needed(*p, graph.weights[i])));
            }
            if reached <= alpha {
                results[i].level = alpha * graph.weights[i];
            }
        }
        let whole = |i: usize| nodes[i].p_values.iter().map(|p| needed(*p, graph.weights[i])).fold(0.0, f64::max);
        let free = (0..nodes.len()).filter(|&i| graph.active[i] && nodes[i].passes);
        let Some((next, level)) = free.map(|i| (i, whole(i))).min_by(|x, y| x.1.total_cmp(&y.1)) else { break };
        if level >= 1.0 {
            break;
        }
        reached = reached.max(level);
        graph.pass_on(next);
    }
    results
}

/// The alpha at which a p-value is rejected by a node with this share.
fn needed(p: f64, weight: f64) -> f64 {
    if weight > 0.0 { p / weight } else { f64::INFINITY }
}

/// Shares and transitions as they stand.
struct Graph {
    weights: Vec<f64>,
    transitions: Vec<Vec<f64>>,
    active: Vec<bool>,
}

impl Graph {
    fn new(nodes: &[Node]) -> Self {
        let transitions = nodes.iter().map(|n| n.transitions.clone()).collect();
        Self { weights: nodes.iter().map(|n| n.weight).collect(), transitions, active: vec![true; nodes.len()] }
    }

    /// Takes a node out: w_j += w_i g_ij; g_jk = (g_jk + g_ji g_ik) / (1 - g_ji g_ij).
    fn pass_on(&mut self, i: usize) {
        self.active[i] = false;
        let out = self.transitions[i].clone();
        for j in (0..out.len()).filter(|&j| self.active[j]) {
            self.weights[j] += self.weights[i] * out[j];
        }
        for j in 0..out.len() {
            let back = self.transitions[j][i];
            let rest = 1.0 - back * out[j];
            let is_open = self.active[j] && rest > 1e-12;
            for (k, (step, through)) in self.transitions[j].iter_mut().zip(&out).enumerate() {
                let is_kept = is_open && self.active[k] && j != k;
                *step = if is_kept { (*step + back * through) / rest } else { 0.0 };
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn node(weight: f64, p_values: &[f64], transitions: &[f64]) -> Node {
        Node { weight, p_values: p_values.to_vec(), passes: true, transitions: transitions.to_vec() }
    }

    fn adjusted(nodes: &[Node]) -> Vec<f64> {
        test_families(nodes, 0.05).iter().flat_map(|r| r.p_adjusted.clone()).collect()
    }

    #[track_caller]
    fn close(got: &[f64], want: &[f64]) {
        assert!(got.len() == want.len() && got.iter().zip(want).all(|(g, w)| (g - w).abs() < 1e-12), "{got:?}");
    }

    /// With equal shares that pass on evenly the graph is Holm's procedure (Bretz et al. 2009, figure 2): 3 x 0.01, then
    /// 2 x 0.02, then the running maximum.
    #[test]
    fn equal_shares_are_the_method_of_holm() {
        let even = [[0.0, 0.5, 0.5], [0.5, 0.0, 0.5], [0.5, 0.5, 0.0]];
        let nodes: Vec<Node> = [0.02, 0.01, 0.03].iter().zip(&even).map(|(p, g)| node(1.0 / 3.0, &[*p], g)).collect();
        close(&adjusted(&nodes), &[0.04, 0.03, 0.04]);
        let levels: Vec<f64> = test_families(&nodes, 0.035).iter().map(|r| r.level).collect();
        close(&levels, &[0.035 / 2.0, 0.035 / 3.0, 0.035 / 2.0]);
    }

    /// A gatekeeper: the second family has no share until the first is rejected whole.
    #[test]
    fn a_family_behind_another_waits_for_all_of_it() {
        let chain = |first: &[f64]| [node(1.0, first, &[0.0, 1.0]), node(0.0, &[0.001, 0.5], &[0.0, 0.0])];
        close(&adjusted(&chain(&[0.01, 0.02])), &[0.01, 0.02, 0.02, 0.5]);
        close(&adjusted(&chain(&[0.01, 0.9])), &[0.01, 0.9, 0.9, 0.9]);
    }

    #[test]
    fn a_family_that_keeps_its_share_passes_nothing_on() {
        let mut nodes = [node(0.5, &[1e-6], &[0.0, 1.0]), node(0.5, &[0.03], &[1.0, 0.0])];
        close(&adjusted(&nodes), &[2e-6, 0.03]);
        nodes[0].passes = false;
        close(&adjusted(&nodes), &[2e-6, 0.06]);
    }
}
