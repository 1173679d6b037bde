//! Further starts around a guess, so that one unlucky start is not the only one.

/// The guess itself, the guess with all parameters multiplied by each factor, and with each one multiplied alone.
///
/// Factors such as `[0.1, 10.0]` reach over two orders of magnitude each way; a parameter guessed as zero stays zero.
pub fn spread(guess: &[f64], factors: &[f64]) -> Vec<Vec<f64>> {
    let mut starts = vec![guess.to_vec()];
    for factor in factors {
        starts.push(guess.iter().map(|p| p * factor).collect());
        for j in 0..guess.len() {
            let mut start = guess.to_vec();
            start[j] *= factor;
            starts.push(start);
        }
    }
    starts
}
